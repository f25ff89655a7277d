// The nine grades of oxide colour in their fixed order: word, number and pattern, and two honest ways out.

import { button, h } from "./element.js";
import { capital, GRADES } from "./words.js";

/** A row of swatches; `picked({answer, grade})` hears the choice. Colours stand here because here they mean oxide. */
export function swatchBoard(picked) {
  return h("div", { class: "swatches" },
    GRADES.map((word, grade) => button(
      { class: "swatch", "data-key": `grade-${grade}` }, () => picked({ answer: "graded", grade }),
      h("span", { class: `oxide oxide-${grade}`, "aria-hidden": "true" }),
      h("span", { class: "swatch-words" }, h("strong", {}, String(grade)), ` ${capital(word)}`))),
    button({ class: "swatch swatch-word", "data-key": "not-sure" }, () => picked({ answer: "not sure" }), h("span", { class: "swatch-words" }, "Not sure")),
    button({ class: "swatch swatch-word", "data-key": "no-access" }, () => picked({ answer: "no access" }), h("span", { class: "swatch-words" }, "No access")));
}
