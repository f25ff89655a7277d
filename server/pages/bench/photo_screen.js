// A joint's pictures on the tablet: which side and zone, one large button, and what was taken, with where it is now.

import { button, h } from "./element.js";
import { wallClock } from "./clock.js";
import { page } from "./gas_screen.js";
import { pictureFor, picturesOf, takePicture } from "./photos.js";
import { capital, ZONES } from "./words.js";

/** The screen of a joint's pictures. */
export function photoScreen(app) {
  const joint = app.joint;
  const { side = "outside", zone = "bead" } = app.where;
  const set = (changes) => app.go({ screen: "photo", joint: joint.id, side, zone, ...changes });
  const choice = (name, value, label, now) => button(
    { class: "choice", "data-key": `${name}-${value}`, "aria-pressed": String(now === value) }, () => set({ [name]: value }), label);
  const taken = picturesOf(app, joint);
  return page(app, `Pictures of ${joint.id}`,
    h("div", { class: "choices" }, ["outside", "inside"].map((each) => choice("side", each, capital(each), side)),
      h("span", { class: "choices-gap" }), Object.entries(ZONES).map(([each, label]) => choice("zone", each, capital(label), zone))),
    button({ class: "log", "data-key": "take-picture" }, () => { takePicture(app, joint, side, zone); }, `Take a picture: ${side}, ${ZONES[zone]}`,
      h("small", {}, "lamp on, whole seam, nothing moving")),
    taken.length ? h("div", { class: "pictures" }, taken.toReversed().map((entry) => shown(app, entry)))
      : h("p", { class: "nothing-asked" }, "No picture of this joint yet. One taken before the seam is hidden or brushed is worth ten afterwards."),
    h("p", {}, "A picture does not tell whether a weld is sound. The grade is given by your eye, in the light at the bench."));
}

/** The button that takes a picture of what is being looked at; the look that follows names it. */
export function pictureButton(app, joint, side, zone, asked = false) {
  const named = pictureFor(app, joint, side, zone);
  const words = named ? "Picture taken, saved" : asked ? "Take the picture asked for" : "Take a picture first";
  return button({ class: `further picture-button ${asked && !named ? "straw" : ""}`, "data-key": "picture" }, () => { takePicture(app, joint, side, zone); },
    words, named ? h("span", {}, "tap to take another") : null);
}

function shown(app, entry) {
  const here = app.photos.find((each) => each.sha256 === entry.sha256);
  const away = entry.device === app.clock.device ? "In the record" : `Taken with ${entry.device}`;
  const when = `${capital(entry.side ?? "")} ${ZONES[entry.zone] ?? ""}, ${wallClock(app.sheet.zone, entry.taken ?? entry.happened)}`;
  return h("figure", { class: "picture-kept" },
    h("img", { src: here ? blobAddress(here) : `/photos/${entry.sha256}?size=thumb`, alt: when }),
    h("figcaption", {}, h("strong", {}, when), h("span", {}, here?.problem ? `Not taken: ${here.problem}` : here ? "Saved on this tablet" : away)));
}

const addresses = new Map();

/** One address for each picture, however often the screen is drawn. */
function blobAddress({ sha256, blob }) {
  if (!addresses.has(sha256)) addresses.set(sha256, URL.createObjectURL(blob));
  return addresses.get(sha256);
}
