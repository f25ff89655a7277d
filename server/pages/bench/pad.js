// The big number pad: the only keyboard of the usual path; it starts empty, because a reading is never guessed.

import { h, key } from "./element.js";

const KEYS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "⌫"];
const LONGEST = 8;

/** Shows the pad for one asked value; `changed(text)` hears every key. */
export function numberPad({ title, unit, value, negative = false }, changed) {
  const put = (pressed) => changed(typed(value ?? "", pressed));
  return h("section", { class: "pad", "aria-label": `Number pad: ${title}` },
    h("div", { class: "pad-shown" }, h("span", { class: "pad-title" }, title),
      h("output", { class: "pad-value", "aria-live": "polite" }, value ? value : "–", " ", unit)),
    h("div", { class: "pad-keys" },
      KEYS.map((each) => key({ class: "pad-key", "data-key": `pad-${each}`, "aria-label": each === "⌫" ? "wipe the last digit" : each }, () => put(each), each)),
      negative ? key({ class: "pad-key pad-sign", "data-key": "pad-sign", "aria-label": "below zero" }, () => put("±"), "±") : null));
}

/** The pad in its column, with what is wrong with the number under it. */
export function padOf(asked, changed, problem) {
  return h("div", { class: "joint-pad" }, numberPad(asked, changed), problem ? h("p", { class: "pad-problem", role: "alert" }, problem) : null);
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
    return { value: null, problem: `${whole} cannot be the ${words}: ${least} to ${most}${unit ? ` ${unit}` : ""} is possible. Key it in again.` };
  }
  return { value: whole, problem: null };
}
