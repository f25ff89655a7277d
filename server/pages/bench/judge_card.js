// One line of a limit card held against a value, offline: the same five words, from the same cases, as on the server.

const NUMBER = /^-?[0-9]{1,12}(\.[0-9]{1,9})?$/;
const PART = /^([0-9]{1,12}(?:\.[0-9]{1,9})?)( %)?$/;
const PROOF_FACTOR = 1.645;
const WIDE_ENOUGH = 4;

export class NotAValue extends Error {}

/** Holds a value (decimal text or a word; null: none) against a card line: {word, proved, uncertainty}. */
export function checkLine(line, value, asked = true) {
  if (value === null || value === undefined) {
    return { word: asked ? "unknown" : "not asked", proved: false, uncertainty: null };
  }
  if (line.allowed && line.allowed.length) {
    const within = line.allowed.some((each) => same(value, each));
    return { word: within ? "within" : "outside", proved: true, uncertainty: null };
  }
  const number = asNumber(line, value);
  const uncertainty = doubtOf(line.uncertainty, number);
  return { ...conform(number, bound(line.low), bound(line.high), uncertainty), uncertainty };
}

/** Standard uncertainty of a value from `0.15`, `3 %` or `sqrt(1, 5 %)`; null: not on file, which is never a pass. */
export function doubtOf(text, value) {
  let inner = text || "";
  if (inner.startsWith("sqrt(")) inner = inner.slice(5);
  if (inner.endsWith(")")) inner = inner.slice(0, -1);
  const found = inner.split(", ").map((part) => PART.exec(part));
  if (found.some((part) => part === null)) return null;
  const sizes = found.map((part) => (part[2] ? (Number(part[1]) / 100) * Math.abs(value) : Number(part[1])));
  return sizes.length === 1 ? sizes[0] : Math.sqrt(sizes.reduce((sum, size) => sum + size * size, 0));
}

function conform(value, low, high, uncertainty) {
  if (low === null && high === null) throw new NotAValue("a line without a limit asks nothing");
  if (low !== null && high !== null && low >= high) throw new NotAValue("low is not below high");
  const aboveLow = low === null ? Infinity : value - low;
  const belowHigh = high === null ? Infinity : high - value;
  const room = aboveLow < belowHigh ? aboveLow : belowHigh;
  const width = low === null || high === null ? Infinity : high - low;
  const guard = PROOF_FACTOR * (uncertainty ?? 0);
  if (room >= 0) return inside(room >= guard && width >= WIDE_ENOUGH * (uncertainty ?? 0), uncertainty);
  return { word: "outside", proved: uncertainty !== null && -room >= guard };
}

function inside(clear, uncertainty) {
  if (uncertainty === null) return { word: "unknown", proved: false };
  return clear ? { word: "within", proved: true } : { word: "marginal", proved: false };
}

function asNumber(line, value) {
  if (!NUMBER.test(value)) {
    throw new NotAValue(`${line.name}: “${value}” is not a number; write the value in ${line.unit || "words"} as 12.5`);
  }
  return Number(value);
}

function bound(text) {
  return text === null || text === undefined ? null : Number(text);
}

function same(value, allowed) {
  if (NUMBER.test(value) && NUMBER.test(allowed)) return Number(value) === Number(allowed);
  return value === allowed;
}
