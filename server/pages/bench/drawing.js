// Draws the screen the tablet is on; what has not changed stays as it is, and a new screen starts at its heading.

import { cutOutScreen } from "./cut_out_screen.js";
import { frameScreen } from "./frame_screen.js";
import { beadScreen, gasScreen, purgeScreen, rodEndsScreen } from "./gas_screen.js";
import { h } from "./element.js";
import { jointScreen } from "./joint_screen.js";
import { logScreen } from "./log_screen.js";
import { lookScreen } from "./look_screen.js";
import { machineScreen } from "./machine_screen.js";
import { mendScreen } from "./mend_screen.js";
import { openEndsScreen } from "./open_ends_screen.js";
import { personScreen, releaseScreen } from "./people_screen.js";
import { photoScreen } from "./photo_screen.js";
import { cautionsScreen, cleanScreen, earlierScreen, geometryScreen, problemScreen } from "./small_screens.js";
import { cylinderLineScreen, scanScreen } from "./scan_screen.js";
import { redraw } from "./redraw.js";
import { shiftScreen } from "./shift_screen.js";
import { cylinderScreen, sleeveScreen } from "./stock_screen.js";
import { tabletScreen } from "./tablet_screen.js";
import { toldLateScreen } from "./told_late_screen.js";
import { footBar, topBar } from "./top_bar.js";

const SCREENS = {
  frame: frameScreen, joint: jointScreen, look: lookScreen, clean: cleanScreen, geometry: geometryScreen, earlier: earlierScreen,
  problem: problemScreen, cautions: cautionsScreen, gas: gasScreen, purge: purgeScreen, cylinder: cylinderScreen, bead: beadScreen,
  "cut-out": cutOutScreen, "told-late": toldLateScreen, sleeve: sleeveScreen, "rod-ends": rodEndsScreen, log: logScreen, machine: machineScreen, mend: mendScreen, tablet: tabletScreen, person: personScreen, release: releaseScreen, shift: shiftScreen, "open-ends": openEndsScreen, scan: scanScreen, "cylinder-line": cylinderLineScreen, photo: photoScreen,
};
const SCROLLED = ".screen, .frame-next, .joint-top, .joint-work, .two > :first-child";
const NEEDS_JOINT = new Set(["joint", "look", "clean", "earlier", "cautions", "release", "shift", "photo", "cut-out"]);
const NEEDS_NOTHING = new Set(["tablet", "person"]);

/** Puts the present screen on the page. */
export function draw(app, root, { top = false } = {}) {
  const focused = document.activeElement?.dataset?.key;
  app.heading = null;
  const name = screenOf(app);
  const content = SCREENS[name](app);
  const screen = h("div", { class: `screen-${name} screen`, tabindex: "0", role: "region", "aria-label": app.heading?.title ?? "Frame" }, content);
  redraw(root, [topBar(app), failedNote(app), screen, footBar(app)].filter(Boolean));
  if (top) {
    for (const scrolled of root.querySelectorAll(SCROLLED)) scrolled.scrollTop = 0;
    root.querySelector("h1")?.focus({ preventScroll: true });
  } else if (focused && document.activeElement?.dataset?.key !== focused) {
    root.querySelector(`[data-key="${CSS.escape(focused)}"]`)?.focus({ preventScroll: true });
  }
}

function screenOf(app) {
  const wanted = app.where.screen in SCREENS ? app.where.screen : "frame";
  if (NEEDS_NOTHING.has(wanted)) return wanted;
  if (!app.sheet || !app.frame) return "frame";
  if (!app.person) return "person";
  if (NEEDS_JOINT.has(wanted) && !app.joint) return "frame";
  if (wanted === "geometry" && !app.frame.geometry.some((check) => check.id === app.where.joint)) return "frame";
  return wanted;
}

function failedNote(app) {
  if (app.scanNote && app.where.screen !== "scan") return h("p", { class: "notice-strong", role: "status" }, app.scanNote);
  return app.failed ? h("p", { class: "red-light", role: "alert" }, app.failed) : null;
}
