// Changes what stands on the page into what was freshly made, touching only what differs: what stays keeps focus, scroll and typed words.

import { acts, doAs, PRESSED } from "./tap.js";

/** Makes the children of a place those given; elements of the same kind in the same order stay and are changed. */
export function redraw(place, fresh) {
  let at = place.firstChild;
  for (const child of fresh) {
    const stays = nextAlike(at, child);
    if (!stays) { place.insertBefore(child, at); continue; }
    while (at !== stays) at = dropped(at);
    change(stays, child);
    at = stays.nextSibling;
  }
  while (at) at = dropped(at);
}

function change(stays, fresh) {
  if (fresh.nodeType !== Node.ELEMENT_NODE) {
    if (stays.data !== fresh.data) stays.data = fresh.data;
    return;
  }
  if (!acts(stays) && !acts(fresh) && stays.isEqualNode(fresh)) return;
  for (const { name } of [...stays.attributes]) if (name !== PRESSED && !fresh.hasAttribute(name)) stays.removeAttribute(name);
  for (const { name, value } of fresh.attributes) if (stays.getAttribute(name) !== value) stays.setAttribute(name, value);
  doAs(stays, fresh);
  redraw(stays, [...fresh.childNodes]);
}

function nextAlike(at, fresh) {
  const kind = kindOf(fresh);
  while (at && kindOf(at) !== kind) at = at.nextSibling;
  return at;
}

/** A heading with other words is another heading: it takes the focus anew and is read out. */
function kindOf(node) {
  if (node.nodeType !== Node.ELEMENT_NODE) return node.nodeName;
  const told = node.nodeName === "H1" ? node.textContent : node.getAttribute("data-key") ?? "";
  return `${node.nodeName} ${told} ${(node.getAttribute("class") ?? "").split(" ", 1)}`;
}

function dropped(node) {
  const next = node.nextSibling;
  node.remove();
  return next;
}
