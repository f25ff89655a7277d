// Where the entries are: on this tablet or in the record; what the record did not understand; the rescue file.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { onThisTablet } from "./photos.js";
import { loadRescue, rescueFile } from "./rescue.js";
import { takeIn } from "./newer.js";
import { savedWords } from "./result_screen.js";

/** The two states in full, whether the tablet's store is safe, and a way out when it is not. */
export function tabletScreen(app) {
  const count = onThisTablet(app);
  return page(app, count ? `${count} on this tablet` : "Everything is in the record",
    app.failed ? h("p", { class: "red-light", role: "alert" }, app.failed) : null,
    h("div", { class: "tiles" },
      app.newer ? button({ class: "tile", "data-key": "take-newer" }, () => takeIn(app), h("strong", {}, "Take in the newer bench"), h("span", { role: "status" }, app.notTakenIn ?? "what you logged and keyed in stays")) : null,
      button({ class: "tile", "data-key": "send" }, () => app.send(), h("strong", {}, "Send now"), h("span", {}, linkWords(app))),
      button({ class: "tile", "data-key": "rescue-save" }, () => rescueFile(app), h("strong", {}, "Save a rescue file"), h("span", {}, "all entries and pictures of this tablet")),
      button({ class: "tile", "data-key": "rescue-load" }, () => loadRescue(app), h("strong", {}, "Load a rescue file"), h("span", {}, app.rescued ?? "from another tablet"))),
    storageNote(app), onlyOpenNote(), photosNote(app),
    app.told.length ? h("section", {}, h("h2", {}, "Look at these"), h("ul", { class: "logged-list" }, app.told.map(toldRow))) : null,
    app.waiting.length ? h("section", {}, h("h2", {}, "On this tablet, oldest first"), h("ul", { class: "logged-list" }, app.waiting.slice(0, 60).map((kept) =>
      h("li", { class: "logged" }, h("span", { class: "logged-when" }, `No. ${kept.seq}`), h("strong", {}, savedWords(kept.entry)))))) : null,
    h("div", { class: "tiles" }, app.frame ? h("a", { class: "tile", href: `/traveller/${encodeURIComponent(app.frame.frame)}` }, h("strong", {}, "Print the traveller"), h("span", {}, app.frame.frame)) : null,
      h("a", { class: "tile", href: "/labels" }, h("strong", {}, "Print labels"), h("span", {}, "sleeves and cylinders")),
      h("a", { class: "tile", href: "/" }, h("strong", {}, "Other screens of the shop"))));
}

/** Pictures here, and what the record said of those it did not take; a rescue file carries these too. */
function photosNote(app) {
  if (app.photos.length === 0) return null;
  const refused = app.photos.filter((each) => each.problem);
  return h("section", {}, h("h2", {}, `Pictures on this tablet: ${app.photos.length}`),
    h("ul", { class: "logged-list" }, refused.map((each) => h("li", { class: "logged" }, h("strong", {}, `${each.joint} ${each.side}`), h("span", {}, `not taken: ${each.problem}`)))));
}

function toldRow({ entry, receipt }) {
  return h("li", { class: "logged" }, h("strong", {}, savedWords(entry)), h("span", {}, `${receipt.taken}: ${receipt.problem ?? "see the quality lead"}`));
}

function linkWords(app) {
  const said = { idle: "nothing waits", sending: "sending now", "no answer": "the shop’s record does not answer yet", "sign in": "the record wants a sign-in first", taken: "arrived" };
  return said[app.link.is] ?? "";
}

function storageNote(app) {
  const kept = app.storage;
  if (!kept) return null;
  if (kept.safe) return h("p", { class: "quiet" }, `This tablet’s store is protected; ${kept.freeMb} MB are free.`);
  return h("p", { class: "notice-strong" }, h("strong", {}, "This tablet’s store is at risk. "),
    kept.full ? "It is nearly full. " : "The browser may clear it when space is short. ", "Send often, and save a rescue file before the tablet is put away.");
}

function onlyOpenNote() {
  if (isSecureContext) return null;
  return h("p", { class: "notice-strong" }, h("strong", {}, "Keep this page open. "),
    "It came over plain http, so it cannot be opened again without the network; entries made are kept all the same. Ask for the shop’s https address.");
}
