// What this site keeps on the device: values by name, as JSON, under names that begin with the site's address.

/** More recipes than these are not kept: the one that was not used for longest goes first. */
export const MOST_RECIPES = 60;

/** The same for the texts of recipes, which can be worked out again. */
export const MOST_TEXTS = 12;

/** @type {Map<string, DeviceStore>} */
const stores = new Map();

/**
 * The store of the site whose names begin with `prefix`; one for the whole visit, whatever pages are swapped in.
 *
 * @param {string} prefix
 */
export function deviceStore(prefix) {
  const store = stores.get(prefix) ?? new DeviceStore(prefix, () => localStorage);
  stores.set(prefix, store);
  return store;
}

export class DeviceStore {
  #prefix;
  #storage;

  /** What the device would not take: it lasts as long as the page. @type {Map<string, unknown>} */
  #unsaved = new Map();

  /**
   * @param {string} prefix what every name begins with
   * @param {() => Storage} storage asked each time, since a browser that blocks it throws when it is asked
   */
  constructor(prefix, storage) {
    this.#prefix = prefix;
    this.#storage = storage;
  }

  /**
   * The value of a name; null if there is none, or none that can be read.
   *
   * @param {string} name
   * @returns {unknown}
   */
  get(name) {
    if (this.#unsaved.has(name)) return structuredClone(this.#unsaved.get(name));
    try {
      return JSON.parse(this.#storage().getItem(this.#prefix + name) ?? "null");
    } catch (error) {
      if (error instanceof SyntaxError || error instanceof DOMException) return null;
      throw error;
    }
  }

  /**
   * Keeps a value under a name. False if it will be gone with this page.
   *
   * @param {string} name
   * @param {unknown} value
   */
  set(name, value) {
    this.#unsaved.set(name, structuredClone(value));
    const text = JSON.stringify(value);
    for (;;) {
      try {
        this.#storage().setItem(this.#prefix + name, text);
        this.#unsaved.delete(name);
        this.#dropOldest("recipe:", name, MOST_RECIPES);
        return true;
      } catch (error) {
        if (!(error instanceof DOMException)) throw error;
        const isDropped = error.name === "QuotaExceededError" && (this.#dropOldest("texts:", name, 0) || this.#dropOldest("recipe:", name, 1));
        if (!isDropped) return false;
      }
    }
  }

  /**
   * Keeps the texts of a recipe under a name, unless the device is full: nothing else makes room for them.
   *
   * @param {string} name
   * @param {unknown} value
   */
  setIfRoom(name, value) {
    try {
      this.#storage().setItem(this.#prefix + name, JSON.stringify(value));
      this.#dropOldest("texts:", name, MOST_TEXTS);
    } catch (error) {
      if (!(error instanceof DOMException)) throw error;
    }
  }

  /**
   * Calls back when another tab changes the value of a name.
   *
   * @param {string} name
   * @param {() => void} call
   */
  whenChangedElsewhere(name, call) {
    addEventListener("storage", ({ key }) => {
      if (key === this.#prefix + name) call();
    });
  }

  /**
   * Drops the value of a kind that was not used for longest, if there are more than `most`; never the one that is being kept.
   *
   * @param {string} kind what their names begin with
   * @param {string} keeping
   * @param {number} most
   */
  #dropOldest(kind, keeping, most) {
    const storage = this.#storage();
    const names = Object.keys(storage)
      .filter((key) => key.startsWith(this.#prefix + kind))
      .map((key) => key.slice(this.#prefix.length));
    if (names.length <= most) return false;
    const [oldest] = names.filter((name) => name !== keeping).sort((a, b) => this.#lastUse(a) - this.#lastUse(b));
    if (oldest) storage.removeItem(this.#prefix + oldest);
    return Boolean(oldest);
  }

  /** @param {string} name */
  #lastUse(name) {
    const record = /** @type {{ used?: number } | null} */ (this.get(name));
    return record?.used ?? 0;
  }
}
