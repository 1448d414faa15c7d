/**
 * Drawings set into the page, so that their lines take the page's ink. Each is built anew from what drawings are made
 * of: its rules go into the page's own sheets, its styles are set one by one, and nothing else gets in.
 */

/** Elements a drawing may hold. */
const DRAWN = new Set(["svg", "g", "path", "circle", "rect", "line", "text", "tspan", "clipPath", "defs", "title"]);

/**
 * @param {string} svg as the server sends it
 * @param {string} label for who cannot see it
 * @returns {SVGElement | null} null where it is no drawing
 */
export function drawing(svg, label) {
  const markup = svg.replace(/<style>(.*?)<\/style>/gs, (_, rules) => adopt(rules)).replace(/ (style|on\w+)="/g, ' data-$1="');
  const parsed = new DOMParser().parseFromString(markup, "image/svg+xml").documentElement;
  if (parsed.localName !== "svg") return null;
  const drawn = rebuilt(parsed);
  drawn.setAttribute("role", "img");
  drawn.setAttribute("aria-label", label);
  return drawn;
}

/** @param {Element} from @returns {SVGElement} */
function rebuilt(from) {
  const made = /** @type {SVGElement} */ (document.createElementNS("http://www.w3.org/2000/svg", from.localName));
  for (const { name, value } of from.attributes) {
    if (name === "data-style") made.style.cssText = value;
    else if (!/^(data-|on|xmlns|href|xlink|style)/.test(name)) made.setAttribute(name, value);
  }
  for (const child of from.childNodes) {
    if (child instanceof Element && DRAWN.has(child.localName)) made.append(rebuilt(child));
    else if (child.nodeType === Node.TEXT_NODE) made.append(child.textContent ?? "");
  }
  return made;
}

/** @type {Set<string>} */
const adopted = new Set();

/** Take a drawing's rules into the page, once. @param {string} rules */
function adopt(rules) {
  if (rules && !adopted.has(rules)) {
    adopted.add(rules);
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(rules);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  }
  return "";
}
