// A number stays on one line with its unit, by the same rule as in crumbcoat_calc/values/spacing.py: a test compares them.

const QUANTITY =
  /([0-9¼½¾⅓⅔⅛⅜⅝⅞]) (°[CF]|°Brix|%|[kmµ]?g|m?L|[kcmµ]?m|in(?=$|[,;:.)]| \()|oz|fl oz|lb|k?J|kcal|k?Pa|mPa s|W|min|h|s|(?:hour|minute|second|day|week|month)s?|(?:(?:US|UK|AU|metric|imperial) )?(?:cups?|tbsp|tsp|pints?|quarts?|qt|fl oz)|[A-Z]{3})(?![A-Za-z])/g;

/**
 * The text with a no-break space between each number and its unit.
 *
 * @param {string} text
 */
export function unbroken(text) {
  return text.replace(QUANTITY, (found) => found.replace(/ /g, "\u00a0"));
}
