// Where the tablet opens: the frame as it stands, what may come next, and in words what has to wait for what.

import { button, h } from "./element.js";
import { holdsOf } from "./holds.js";
import { framePicture } from "./picture.js";
import { jointWord } from "./progress.js";
import { nextSteps } from "./next_steps.js";
import { capital, quarterWords } from "./words.js";

const SHOWN = 3;

/** The frame picture with the next steps beside it. */
export function frameScreen(app) {
  const frame = app.frame;
  if (!frame) return nothingHere(app);
  const progress = app.progress();
  const steps = nextSteps(frame, progress, holdsOf(app));
  const [free, waiting] = [steps.filter((step) => step.allowed), steps.filter((step) => !step.allowed)];
  const next = new Set(free.slice(0, SHOWN).map((step) => step.joint));
  const looks = frame.joints.filter((joint) => progress.joints[joint.id].finished && app.looksDue(joint).looks.length).slice(0, 2);
  return h("div", { class: "frame-screen" },
    h("div", { class: "bench-view" }, framePicture(frame, progress, (found) => tapped(app, found), next), legend()),
    h("div", { class: "frame-next" }, beside(app, { frame, progress, free, waiting, looks })));
}

/** Beside the picture: what lies under the tap, what waits and why, every joint, or what comes next. */
function beside(app, { frame, progress, free, waiting, looks }) {
  const heading = (words) => h("h1", { tabindex: "-1" }, words);
  const back = button({ class: "further", "data-key": "what-next" }, () => app.go({ screen: "frame" }), "‹ What comes next");
  if ((app.where.near ?? []).length) return [heading("Which joint?"), nearBoard(app, progress), back];
  if (app.where.more === "waiting") return [heading("What waits, and why"), back, waitingList(waiting)];
  if (app.where.more === "frames") return [heading("Frames in work here"), back, allFrames(app)];
  if (app.where.more === "all") return [heading("All joints"), back, allJoints(app, progress)];
  const shown = app.where.more === "free" ? free : free.slice(0, SHOWN - looks.length);
  return [heading(`Next on ${frame.frame}`), looks.map((joint) => lookButton(app, joint)), shown.map((step) => stepButton(app, step)),
    free.length + waiting.length === 0 ? h("p", { class: "nothing-asked" }, "Every joint is finished and released.") : null,
    h("div", { class: "mores" },
      free.length > shown.length ? showMore(app, "free", `${free.length - shown.length} more`) : null,
      waiting.length ? showMore(app, "waiting", `${waiting.length} wait: why?`) : null,
      showMore(app, "all", "All joints"))];
}

/** The words of a step on its button. */
export function stepWords(app, step) {
  const design = app.frame.joints.find((joint) => joint.id === step.joint);
  const check = app.frame.geometry.find((each) => each.id === step.joint);
  const quarters = step.quarters.length < 4 ? `, ${quarterWords(step.quarters)}` : "";
  return { name: step.joint, title: design?.title ?? check?.title ?? "", what: `${capital(step.action)}${quarters}` };
}

function stepButton(app, step) {
  const { name, title, what } = stepWords(app, step);
  const screens = { check: "geometry", release: "release" };
  return button({ class: "step", "data-key": `step-${step.step}` },
    () => app.go({ screen: screens[step.action] ?? "joint", joint: step.joint }),
    h("span", { class: "step-what" }, what), h("span", { class: "step-where" }, h("strong", {}, name), ` ${title}`));
}

/** A look that the plan asks for and nobody has answered yet. */
function lookButton(app, joint) {
  const [line] = app.looksDue(joint).looks;
  return button({ class: "step", "data-key": `look-${joint.id}` }, () => app.go({ screen: "look", joint: joint.id, side: line.side, zone: line.zone }),
    h("span", { class: "step-what" }, `Look ${line.side}`), h("span", { class: "step-where" }, h("strong", {}, joint.id), ` ${joint.title}`));
}

function tapped(app, found) {
  if (found.length === 1) app.go({ screen: "joint", joint: found[0] });
  else app.go({ screen: "frame", near: found });
}

function nearBoard(app, progress) {
  return app.where.near.map((id) => jointButton(app, app.frame.joints.find((joint) => joint.id === id), progress));
}

function allJoints(app, progress) {
  return h("div", { class: "all-joints" }, app.frame.joints.map((joint) => jointButton(app, joint, progress)));
}

function allFrames(app) {
  return h("div", { class: "all-joints" }, app.frames.map(({ frame, title, size }) => button({ class: "step", "data-key": `choose-${frame}` }, () => app.go({ screen: "frame", frame }),
    h("span", { class: "step-what" }, frame), h("span", { class: "step-where" }, `${title} ${size}`))));
}

function jointButton(app, joint, progress) {
  return button({ class: "step", "data-key": `joint-${joint.id}` }, () => app.go({ screen: "joint", joint: joint.id }),
    h("span", { class: "step-what" }, capital(jointWord(joint, progress.joints[joint.id]))),
    h("span", { class: "step-where" }, h("strong", {}, joint.id), ` ${joint.title}`));
}

function waitingList(waiting) {
  return h("ul", { class: "waiting" }, waiting.map((step) => h("li", {},
    h("strong", {}, `${step.joint} ${step.action}`), step.waits.map((words) => h("span", {}, `${capital(words)}.`)))));
}

function showMore(app, what, label) {
  return button({ class: "further", "data-key": `more-${what}` }, () => app.go({ screen: "frame", more: what }), label);
}

function legend() {
  const words = [["open", "open"], ["tacked", "tacked"], ["root", "begun"], ["done", "done; rel.: released"]];
  return h("p", { class: "legend" }, words.map(([name, word]) => h("span", {},
    h("svg", { viewBox: "0 0 30 14", "aria-hidden": "true" }, h("line", { class: `arc arc-${name}`, x1: 3, x2: 27, y1: 7, y2: 7 })), ` ${word}`)));
}

function nothingHere(app) {
  if (!app.sheet && app.asking) {
    return h("div", { class: "empty" }, h("h1", { tabindex: "-1" }, "Fetching the shop’s sheet …"), h("p", {}, "Frames, procedures and people are on their way. The first time takes a moment."));
  }
  return h("div", { class: "empty" },
    h("h1", { tabindex: "-1" }, app.sheet ? "No frame is in work at this bench" : "This tablet knows nothing yet"),
    h("p", {}, app.sheet ? "When the office issues a job packet for this bench, its frame appears here." :
      "It needs the shop’s network once, to fetch frames, procedures and people. Entries can be made after that without it."));
}
