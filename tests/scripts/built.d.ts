// What the build writes above a script: see site_plugins/crumbcoat_site/offline_pages/plugin.py.

/** In register.js: once something on a page matches this selector, the large files have been used; "" if none are. */
declare const USED: string;

/** In worker.js (sw.js): the version of the site, and its files by path from the root. */
declare const SITE: { version: string; shell: string[]; later: string[] };
