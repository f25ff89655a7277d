// Makes elements of the page: `h("button", {class: "big", onclick}, "Log")`; text is always text, never markup.

import { actOnce, acts, does, holdsActing } from "./tap.js";

const SVG = "http://www.w3.org/2000/svg";
const DRAWN = new Set(["svg", "g", "path", "line", "circle", "rect", "polyline", "text", "title", "defs", "pattern", "tspan"]);

/** Makes one element with attributes (`on…` is what it does, true and false switch) and children. */
export function h(tag, attributes = {}, ...children) {
  const made = DRAWN.has(tag) ? document.createElementNS(SVG, tag) : document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) put(made, name, value);
  const inside = children.flat(3).filter((child) => child !== null && child !== undefined && child !== false);
  made.append(...inside);
  if (inside.some(acts)) holdsActing(made);
  return made;
}

/** A button that acts once per tap, however shaky the glove and whatever is drawn under it meanwhile. */
export function button(attributes, action, ...children) {
  return h("button", { type: "button", ...attributes, onclick: (tap) => actOnce(tap, action) }, ...children);
}

/** A button for typing, where quick repeated taps are meant. */
export function key(attributes, action, ...children) {
  return h("button", { type: "button", ...attributes, onclick: action }, ...children);
}

function put(made, name, value) {
  if (value === null || value === undefined || value === false) return;
  if (name.startsWith("on")) does(made, name.slice(2), value);
  else made.setAttribute(name, value === true ? "" : String(value));
}
