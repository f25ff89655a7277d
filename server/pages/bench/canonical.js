// One value, one line of bytes: names in order, no floats, so that the record hashes and compares exactly what was saved.

const HALF_OF_A_PAIR = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?:^|[^\uD800-\uDBFF])[\uDC00-\uDFFF]/;

/** Writes a value as its one canonical line; whatever may not be sealed is refused with its path. */
export function canonicalLine(value, path = "the line") {
  if (value === null || typeof value === "boolean") return String(value);
  if (typeof value === "string") return text(value, path);
  if (typeof value === "number") return whole(value, path);
  if (Array.isArray(value)) {
    return `[${value.map((item, place) => canonicalLine(item, `${path}[${place}]`)).join(",")}]`;
  }
  if (typeof value === "object") {
    const names = Object.keys(value).sort();
    return `{${names.map((name) => `${text(name, path)}:${canonicalLine(value[name], `${path}.${name}`)}`).join(",")}}`;
  }
  throw new TypeError(`${path}: ${typeof value} cannot be sealed; text, a whole number, true, false, null, a list or an object can`);
}

function text(value, path) {
  if (HALF_OF_A_PAIR.test(value)) throw new TypeError(`${path}: half of a surrogate pair cannot be sealed`);
  return JSON.stringify(value);
}

function whole(value, path) {
  if (!Number.isSafeInteger(value) || Object.is(value, -0)) {
    throw new TypeError(`${path}: ${value} cannot be sealed as a number; write a measured value as text, such as "${value}"`);
  }
  return String(value);
}
