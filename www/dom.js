// Builds elements. Text only ever becomes text: no markup comes from a plan.

/** An element with attributes, listeners ("on…") and children (elements or text). */
export function el(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else element.setAttribute(key, value === true ? "" : value);
  }
  element.append(...children.filter(child => child !== null && child !== undefined));
  return element;
}

export const by = id => document.getElementById(id);

/** Sets text only when it differs, so that nothing is announced or redrawn for nothing. */
export function say(element, text) {
  const wanted = text ?? "";
  if (element.textContent !== wanted) element.textContent = wanted;
}

/** Our word for a severity. */
export const WORDS = {
  fails: "Over",
  caution: "Watch",
  holds: "Clear",
  "not-assessed": "Unknown",
};

/** The worst first. */
export const ORDER = ["fails", "caution", "not-assessed", "holds"];

/** The mark of a severity: a shape of its own, beside the word, never colour alone. */
export function mark(severity) {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  const use = document.createElementNS("http://www.w3.org/2000/svg", "use");
  svg.setAttribute("class", "mark");
  svg.setAttribute("aria-hidden", "true");
  svg.append(use);
  setMark(svg, severity);
  return svg;
}

export function setMark(svg, severity) {
  const known = severity in WORDS ? severity : "not-assessed";
  svg.setAttribute("data-severity", known);
  svg.firstChild.setAttribute("href", `#mark-${known}`);
}

/** Keeps one row per key: made once, brought up to date after, so focus and scroll stay. */
export function rows(host, items, key, make, update) {
  host.rowsByKey ??= new Map();
  const left = new Map(host.rowsByKey);
  let place = host.firstElementChild;
  for (const item of items) {
    const id = key(item);
    let row = left.get(id);
    left.delete(id);
    if (!row) {
      row = make(item);
      host.rowsByKey.set(id, row);
    }
    if (row !== place) host.insertBefore(row, place);
    else place = place.nextElementSibling;
    update(row, item);
  }
  for (const [id, row] of left) {
    host.rowsByKey.delete(id);
    row.remove();
  }
}

let announceLater = 0;

/** Tells what happened: seen in the foot of the page, read out by a screen reader. */
export function tell(text) {
  clearTimeout(announceLater);
  announceLater = setTimeout(() => say(by("status"), text), 30);
}

/** Hands the person a file. */
export function handOver(name, text, type) {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = el("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
