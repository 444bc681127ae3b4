/** Goes on from the address that a card had before to where it is now, with what a link to it carries. */

const to = document.currentScript?.dataset.to;
if (to) location.replace(to + location.search + location.hash);
