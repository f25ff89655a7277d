// The big number pad: the only keyboard of the usual path; it starts empty, because a reading is never guessed.

import { h, key } from "./element.js";

const KEYS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "⌫"];
const LONGEST = 8;

/** Shows the pad for one asked value; `changed(text)` hears every key. */
export function numberPad({ title, unit, value, negative = false, wrong = false }, changed) {
  const put = (pressed) => changed(typed(value ?? "", pressed));
  return h("section", { class: "pad", "aria-label": `Number pad: ${title}` },
    h("div", { class: "pad-head" }, h("div", { class: `pad-shown ${wrong ? "pad-wrong" : ""}` }, h("span", { class: "pad-title" }, wrong ? "Cannot be so" : title),
      h("output", { class: "pad-value", "aria-live": "polite" }, value ? value : "–", " ", unit)),
      negative ? key({ class: "pad-key pad-sign", "data-key": "pad-sign", "aria-label": "below zero" }, () => put("±"), "±") : null),
    h("div", { class: "pad-keys" },
      KEYS.map((each) => key({ class: "pad-key", "data-key": `pad-${each}`, "aria-label": each === "⌫" ? "wipe the last digit" : each }, () => put(each), each))));
}

/** The pad in its column; a number that cannot be is marked in its place, so that no key moves under the finger. */
export function padOf(asked, changed, problem) {
  return h("div", { class: "joint-pad" }, numberPad({ ...asked, wrong: Boolean(problem) }, changed));
}

/** What is wrong with the number stands on the large button, which is always in sight. */
export function problemWords(problem) {
  return h("span", { class: "pad-problem", role: "alert" }, problem);
}

/** The text after one key: one point at most, no leading zeros, never longer than a reading is. */
export function typed(text, pressed) {
  if (pressed === "⌫") return text.slice(0, -1);
  if (pressed === "±") return text.startsWith("-") ? text.slice(1) : `-${text}`;
  if (text.length >= LONGEST) return text;
  if (pressed === ".") return text.includes(".") ? text : `${text || "0"}.`;
  if (text === "0") return pressed;
  return text + pressed;
}

/** The value as decimal text, or null while it is none; and why, when it cannot be a reading. */
export function readValue(text, [unit, least, most, words] = []) {
  const whole = (text ?? "").replace(/\.$/, "");
  if (!/^-?[0-9]+(\.[0-9]+)?$/.test(whole)) return { value: null, problem: null };
  const number = Number(whole);
  if (least !== undefined && (number < least || number > most)) {
    return { value: null, problem: `${whole} cannot be the ${words}: ${least} to ${most}${unit ? ` ${unit}` : ""} is possible. Key it in again, or wipe it.` };
  }
  return { value: whole, problem: null };
}
