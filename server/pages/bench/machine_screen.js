// What the machine or the clamp meter recorded, for one pass: its file gives arc-on seconds, means and measured energy.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { savedWords } from "./result_screen.js";
import { wallClock } from "./clock.js";
import { capital } from "./words.js";

const PATIENCE_MS = 60000;
const NEEDS_NETWORK = "This needs the shop’s network: the file goes straight to the record. Keep the file; choose it again when the network is back.";

/** Which instrument, then the file; what it says of the pass stands here a moment later. */
export function machineScreen(app) {
  const entry = app.entries().find((each) => each.id === app.where.of);
  if (!entry) return page(app, "That pass is not here", h("p", {}, "Choose the pass under “Logged”."));
  const meters = app.sheet.instruments.filter((each) => each.reads.some((quantity) => ["mean_current", "volts"].includes(quantity)));
  const meter = meters.find((each) => each.id === app.where.by) ?? (app.where.by ? { id: app.where.by } : meters.find((each) => each.id === app.sheet.bench.machine) ?? meters[0]);
  return page(app, `Machine’s file: ${savedWords(entry)}`,
    h("p", {}, `Ended ${wallClock(app.sheet.zone, entry.happened)}. The file adds to what was typed and replaces nothing.`),
    app.where.told ? toldPart(app.where.told) : null,
    app.where.refused ? h("p", { class: "notice-strong", role: "alert" }, app.where.refused) : null,
    meters.length ? [h("h2", {}, "Recorded by"), meterBoard(app, meters, meter)]
      : h("p", { class: "nothing-asked" }, "No instrument that reads amps or volts is in the register for this bench."),
    otherMeter(app), meter ? fileBoard(app, entry, meter) : null);
}

function meterBoard(app, meters, meter) {
  return h("div", { class: "choices", role: "group", "aria-label": "Recorded by" }, meters.map((each) => button(
    { class: "choice", "data-key": `meter-${each.id}`, "aria-pressed": String(each === meter) },
    () => { app.where = { ...app.where, by: each.id }; app.draw(); }, h("strong", {}, each.id), h("span", {}, each.title))));
}

/** Only the first of many shared meters are offered; any other is named by what stands on its label. */
function otherMeter(app) {
  const by = app.where.by ?? "";
  const named = app.sheet.instruments.some((each) => each.id === by) ? "" : by;
  return h("form", { class: "code", "data-key": "other-meter", onsubmit: (sent) => sent.preventDefault() },
    h("label", { for: "meter" }, "Another meter, by its label"),
    h("input", { id: "meter", autocomplete: "off", autocapitalize: "characters", "data-key": "meter", maxlength: 60, value: named,
      onchange: (event) => { app.where = { ...app.where, by: event.target.value.trim() || undefined }; app.draw(); } }));
}

function fileBoard(app, entry, meter) {
  if (app.waiting.some((kept) => kept.id === entry.id)) {
    return h("p", { class: "notice-strong" }, h("strong", {}, "The pass is still on this tablet. "), NEEDS_NETWORK);
  }
  const more = `/traces?${new URLSearchParams({ frame: entry.frame, of: entry.id })}`;
  return h("div", { class: "tiles" },
    button({ class: "tile", "data-key": "machine-file" }, () => chooseFile((file) => send(app, entry, meter, file)),
      h("strong", {}, "Choose its file"), h("span", {}, "all of it is this pass")),
    h("a", { class: "tile", "data-key": "machine-beads", href: more }, h("strong", {}, "Other passes in it too"), h("span", {}, "choose the beads; network only")));
}

function chooseFile(chosen) {
  const asked = document.createElement("input");
  asked.type = "file";
  asked.accept = ".csv,.txt,.tsv,.arc,text/csv,text/plain,application/octet-stream";
  asked.addEventListener("change", () => chosen(asked.files[0]));
  asked.click();
}

async function send(app, entry, meter, file) {
  const here = app.where;
  const say = (said) => { if (app.where.of === here.of && app.where.screen === "machine") { app.where = { ...app.where, told: null, refused: null, ...said }; app.draw(); } };
  say({ refused: "Sending …" });
  try {
    const answer = await fetch(`/api/traces?${new URLSearchParams({ of: entry.id, instrument: meter.id })}`, {
      method: "POST", headers: { "Content-Type": "application/octet-stream" }, body: file, signal: AbortSignal.timeout(PATIENCE_MS),
    });
    const said = await answer.json();
    say(answer.ok ? { told: said } : { refused: refusal(said) });
  } catch {
    say({ refused: NEEDS_NETWORK });
  }
}

/** Why the record did not take it, in its own words. */
function refusal(said) {
  const problems = said.problems ?? said.errors;
  return Array.isArray(problems) && problems.length ? problems.map((each) => each.detail ?? each).join(" ") : said.detail ?? "The record did not take it; show it to the quality lead.";
}

const NAMES = { arc_on: "arc on", mean_current: "mean current", volts: "mean voltage", arc_energy: "arc energy" };

function toldPart({ values, energy_doubt_j, flags, beads }) {
  const rows = Object.entries(values).map(([name, { value, unit }]) => h("li", {}, h("strong", {}, `${capital(NAMES[name] ?? name.replaceAll("_", " "))} `),
    `${value} ${unit}`, name === "arc_energy" && energy_doubt_j !== null ? ` ± ${Math.round(energy_doubt_j)} J` : ""));
  return h("section", { class: "guide", role: "status" }, h("h2", {}, `In the record, with ${beads.length} ${beads.length === 1 ? "bead" : "beads"}`),
    h("ul", { class: "card-lines" }, rows), flags.map((words) => h("p", {}, words)));
}
