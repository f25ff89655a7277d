// A verdict on the screen: its word with its shape, the value against the limit on a bar, and what to do beyond it.

import { h } from "./element.js";
import { checkLine } from "./judge_card.js";
import { allowedWords, capital, cautionParts, SHAPES, withUnit } from "./words.js";

/** Judges a value by a card line; a value that cannot be one counts as not there. */
export function judged(line, value, asked = true) {
  try {
    return { line, value, ...checkLine(line, value, asked) };
  } catch {
    return { line, value: null, word: "unknown", proved: false, uncertainty: null };
  }
}

/** The word alone, never by colour: a shape, the word, and whether the instrument can tell. */
export function wordMark({ word, proved, value }) {
  const unproved = word === "outside" && !proved && value !== null ? ", not proved" : "";
  return h("span", { class: `word word-${word.replace(" ", "-")}` },
    h("span", { class: "shape", "aria-hidden": "true" }, SHAPES[word]), ` ${word}${unproved}`);
}

/** One line: what, value, limit, bar, word. */
export function verdictRow(verdict) {
  const { line, value } = verdict;
  return h("div", { class: "verdict" },
    h("div", { class: "verdict-words" }, h("strong", {}, capital(line.words)),
      h("span", {}, value === null ? "not recorded" : withUnit(value, line.unit)),
      h("span", { class: "quiet" }, allowedWords(line))),
    bar(verdict), wordMark(verdict));
}

/** The red light: large, at once, with what to do, the caution that belongs here and whose word it is. */
export function redLight(verdicts, card) {
  const beyond = verdicts.filter(({ word }) => word === "outside");
  if (beyond.length === 0) return null;
  const moments = new Set(beyond.map(({ line }) => line.moment));
  const cautions = (card?.cautions ?? []).map(cautionParts).filter(({ where }) => moments.has(where));
  return h("section", { class: "red-light", role: "alert" },
    h("h2", {}, h("span", { "aria-hidden": "true" }, "■ "), "Outside the limit"),
    beyond.map(({ line, value, proved }) => h("div", { class: "beyond" },
      h("p", { class: "beyond-value" }, `${capital(line.words)}: ${withUnit(value, line.unit)}, allowed ${allowedWords(line)}`,
        proved ? "" : " (not proved: closer than the instrument can tell)"),
      h("p", { class: "beyond-do" }, line.beyond),
      h("p", { class: "beyond-source" }, `Limit from ${line.source}`))),
    cautions.slice(0, 1).map(({ words, authority }) => h("p", { class: "beyond-caution" }, `Caution. ${words} `, h("span", {}, authority))),
    h("p", { class: "beyond-source" }, "Local codes, your qualified procedure and licensed practice come first."));
}

/** The allowed stretch, the value and its whisker, on a line 0 to 100 wide; nothing for words. */
export function bar({ line, value, uncertainty }) {
  const number = Number(value);
  const [low, high] = [line.low, line.high].map((end) => (end === null || end === undefined ? null : Number(end)));
  if (value === null || Number.isNaN(number) || (low === null && high === null)) return h("span", {});
  const reach = 1.645 * (uncertainty ?? 0);
  const ends = [low ?? 0, high, number - reach, number + reach].filter((end) => end !== null);
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const span = (most - least || Math.abs(most) || 1) * 1.25;
  const start = low === null && least === 0 ? 0 : least - 0.1 * span;
  const place = (at) => Math.max(0, Math.min(100, (100 * (at - start)) / span)).toFixed(1);
  const [from, to] = [low === null ? 0 : place(low), high === null ? 100 : place(high)];
  return h("svg", { class: "bar", viewBox: "0 0 100 14", preserveAspectRatio: "none", "aria-hidden": "true" },
    h("rect", { class: "bar-ground", x: 0, y: 5, width: 100, height: 4 }),
    h("rect", { class: "bar-allowed", x: from, y: 3, width: to - from, height: 8 }),
    reach > 0 ? h("line", { class: "bar-whisker", x1: place(number - reach), x2: place(number + reach), y1: 7, y2: 7 }) : null,
    h("line", { class: "bar-value", x1: place(number), x2: place(number), y1: 0, y2: 14 }));
}
