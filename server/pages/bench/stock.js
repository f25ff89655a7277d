// Stock the sheet does not offer: asked of the record by part of its number, and known to this tablet from then on.

import { remember } from "./store.js";

const PATIENCE_MS = 8000;
const MOST_KEPT = 20;

/** Asks the record for what is released and has this in its number; null where it does not answer. */
export async function askStock(app, part) {
  try {
    const answer = await fetch(`/api/stock?${new URLSearchParams({ part })}`, { signal: AbortSignal.timeout(PATIENCE_MS) });
    if (!answer.ok) return null;
    const found = await answer.json();
    app.found = { sleeves: both(found.sleeves, app.found?.sleeves, "sleeve"), cylinders: both(found.cylinders, app.found?.cylinders, "cylinder") };
    await remember(app.store, "found", app.found);
    app.sheet = withFound(app.sheet, app.found);
    app.known = null;
    return found;
  } catch {
    return null;
  }
}

/** A sheet with what was found beside it; of what stands in both the sheet's word counts. */
export function withFound(sheet, found) {
  if (!found) return sheet;
  const { sleeves, cylinders } = sheet.stock;
  return { ...sheet, stock: { sleeves: beside(sleeves, found.sleeves, "sleeve"), cylinders: beside(cylinders, found.cylinders, "cylinder") } };
}

function beside(told, found, name) {
  const known = new Set(told.map((each) => each[name]));
  return [...told, ...found.filter((each) => !known.has(each[name]))];
}

function both(found, before = [], name) {
  return beside(found, before, name).slice(0, MOST_KEPT);
}

/** Whether a number holds what was typed, whatever its capitals. */
export function holdsPart(number, part) {
  return number.toUpperCase().includes(part.toUpperCase());
}
