// What the build writes for scripts: see plugin.py of offline_pages and assets.py of calculators.

/** In register.js: once something on a page matches this selector, the large files have been used; "" if none are. */
declare const USED: string;

/** In worker.js (sw.js): the version of the site, and its files by path from the root. */
declare const SITE: { version: string; shell: string[]; later: string[] };

/** What the runtime consists of: its folder, the files of each way to start, and what Pyodide is given. */
declare module "*/manifest.js" {
  const manifest: {
    folder: string;
    starts: Record<string, string[]>;
    files: Record<string, { bytes: number; packed: boolean }>;
    info: object;
    environment: Record<string, string>;
  };
  export default manifest;
}
