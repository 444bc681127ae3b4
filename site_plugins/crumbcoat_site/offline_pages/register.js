// Registers the service worker (../../../sw.js) once the page is done, and reports to it what this page used before it
// was there. USED, above, is written by the build: a CSS selector for pages that have used the large files.
const root = new URL("../../../", import.meta.url);

async function register() {
  if (!navigator.serviceWorker || self !== top) return; // Another site's page, which shows this one, keeps nothing.
  const { controller } = navigator.serviceWorker;
  try {
    await navigator.serviceWorker.register(new URL("sw.js", root), { updateViaCache: "none" });
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    console.warn("offline pages: nothing is saved on this device:", error.message);
    return;
  }
  const { active } = await navigator.serviceWorker.ready;
  if (!controller) {
    const used = performance.getEntriesByType("resource").map(({ name }) => name);
    active?.postMessage({ keep: [location.href, ...used].filter((url) => url.startsWith(root.href)) });
  }
  if (USED) whenUsed(() => active?.postMessage({ later: true }));
}

/** @param {() => void} call */
function whenUsed(call) {
  if (document.querySelector(USED)) {
    call();
    return;
  }
  const watch = new MutationObserver(() => {
    if (!document.querySelector(USED)) return;
    watch.disconnect();
    call();
  });
  watch.observe(document.body, { subtree: true, childList: true, attributeFilter: ["data-state"] });
}

if (document.readyState === "complete") register();
else addEventListener("load", register, { once: true });
