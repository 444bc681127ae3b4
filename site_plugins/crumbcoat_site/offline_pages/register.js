// Registers the worker (../../../sw.js) once the page is done, and tells it what this page used before it was there.
const root = new URL("../../../", import.meta.url);

async function begin() {
  if (!navigator.serviceWorker) return;
  const { controller } = navigator.serviceWorker;
  try {
    await navigator.serviceWorker.register(new URL("sw.js", root), { updateViaCache: "none" });
  } catch (error) {
    console.warn("offline: nothing is kept on this device:", error.message);
    return;
  }
  const { active } = await navigator.serviceWorker.ready;
  if (!controller) {
    const used = performance.getEntriesByType("resource").map(({ name }) => name);
    active.postMessage({ keep: [location.href, ...used].filter((url) => url.startsWith(root.href)) });
  }
  if (USED) whenUsed(() => active.postMessage({ later: true }));
}

function whenUsed(call) {
  if (document.querySelector(USED)) return call();
  const watch = new MutationObserver(() => {
    if (!document.querySelector(USED)) return;
    watch.disconnect();
    call();
  });
  return watch.observe(document.body, { subtree: true, childList: true, attributeFilter: ["data-state"] });
}

if (document.readyState === "complete") begin();
else addEventListener("load", begin, { once: true });
