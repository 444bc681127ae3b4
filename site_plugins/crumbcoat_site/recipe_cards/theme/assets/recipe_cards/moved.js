/** Goes on from the address that a card had before to where it is now, with what a link to it carries. */

const card = document.querySelector("link[rel=canonical]");
if (card instanceof HTMLLinkElement) location.replace(card.href + location.search + location.hash);
