// Tables, and parts of a page that are all alike, kept in step with what Python computed.

/** Puts rows of texts into the body of a table; the first cell of each is its header. */
export function showRows(body, rows) {
  while (body.rows.length > rows.length) body.deleteRow(-1);
  rows.forEach((cells, at) => {
    const row = body.rows[at] ?? body.insertRow();
    while (row.cells.length > cells.length) row.deleteCell(-1);
    cells.forEach((text, column) => {
      const cell = row.cells[column] ?? row.appendChild(document.createElement(column ? "td" : "th"));
      if (!column) cell.scope = "row";
      if (cell.textContent !== text) cell.textContent = text;
    });
  });
}

/** As many copies of the template as there are sections, each with its texts and rows. */
export function showSections(place, sections) {
  const [template, ...shown] = place.children;
  for (const extra of shown.slice(sections.length)) extra.remove();
  sections.forEach((section, at) => {
    const copy = shown[at] ?? place.appendChild(template.content.firstElementChild.cloneNode(true));
    for (const part of copy.querySelectorAll("[data-part]")) {
      const text = section[part.dataset.part];
      if (Array.isArray(text)) showRows(part, text);
      else if (part.textContent !== text) part.textContent = text;
    }
  });
}
