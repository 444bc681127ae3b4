// The entry point of a handout, which is outside the theme: what the pages of the site get from recipe_reader.js.

class ClassLinks extends HTMLElement {
  async connectedCallback() {
    const { showLinks } = await import("./class_links.js");
    showLinks(this);
  }
}

class ClassResults extends HTMLElement {
  async connectedCallback() {
    const { takeResults } = await import("./class_files.js");
    takeResults(this);
  }
}

customElements.define("class-links", ClassLinks);
customElements.define("class-results", ClassResults);
