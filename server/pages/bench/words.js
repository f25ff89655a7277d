// How the bench calls things: quarters by the clock, runs, the five words with their shapes, the colours of oxide.

export const QUARTERS = ["q12", "q3", "q6", "q9"];
export const RUNS = ["tack", "root", "fill", "wash", "repair"];
export const SHAPES = { within: "○", marginal: "◐", outside: "■", unknown: "◇", "not asked": "–" };

/** The nine grades in their fixed order; the pattern tells them apart where the light, or the eye, does not. */
export const GRADES = [
  "silver", "light straw", "dark straw", "brown", "violet", "blue", "green, pink", "grey", "white, flaky",
];

/** Stands for the class of a sleeve whose label is not on file. */
export const UNREAD_LABEL = "class not known";

export const ZONES = { bead: "bead", edge: "narrow edge band", tint: "wider tint" };

export const TROUBLES = {
  "tungsten touched": "Tungsten touched",
  "re-strike": "Re-strike",
  "arc strike": "Arc strike beside the joint",
  "blow-through": "Blow-through",
  tint: "Colour where none should be",
  other: "Something else",
};

/** Names quarters as a welder would: all four, or 12 and 3 o'clock. */
export function quarterWords(quarters) {
  if (quarters.length === 4) return "all four quarters";
  if (quarters.length === 0) return "no quarter";
  const hours = QUARTERS.filter((each) => quarters.includes(each)).map((each) => each.slice(1));
  return `${hours.join(" and ")} o’clock`;
}

/** A value with its unit: 41 ppm, grade 2, #8. */
export function withUnit(value, unit) {
  if (unit === "grade") return `grade ${value} (${GRADES[Number(value)] ?? "?"})`;
  if (unit === "#") return `#${value}`;
  return unit ? `${value} ${unit}` : String(value);
}

/** What a line allows: at most 20 ppm; 30 to 50 A; ERTi-9 or ERTi-5. */
export function allowedWords(line) {
  if (line.allowed && line.allowed.length) return `${line.allowed.join(" or ")} ${line.unit}`.trim();
  if (line.low === null || line.low === undefined) return `at most ${withUnit(line.high, line.unit)}`;
  if (line.high === null || line.high === undefined) return `at least ${withUnit(line.low, line.unit)}`;
  return `${line.low} to ${withUnit(line.high, line.unit)}`;
}

/** For a week a new revision is called new where its limits are: nobody reads again what they know by heart. */
export function limitsWords(card, today) {
  const days = card ? (Date.parse(today) - Date.parse(card.valid_from)) / 86400000 : -1;
  return days >= 0 && days < 7 ? `Limits: new from ${card.valid_from}` : "Limits, cautions";
}

/** First letter large. */
export function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** `before the arc: words (authority)` as the card carries it, taken apart. */
export function cautionParts(text) {
  const found = /^(before the arc|at the arc|after the arc): (.*) \(([^()]*(?:\([^()]*\)[^()]*)*)\)$/.exec(text);
  return found ? { where: found[1], words: found[2], authority: found[3] } : { where: "", words: text, authority: "" };
}
