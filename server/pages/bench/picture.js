// The frame as a side view: tubes as lines, every joint a gap that closes in four quarters as it is welded.

import { h } from "./element.js";
import { jointWord, quarterWord } from "./progress.js";
import { actOnce } from "./tap.js";
import { QUARTERS } from "./words.js";

const ARCS = { q12: [-38, 38], q3: [52, 128], q6: [142, 218], q9: [232, 308] };
const MARGIN_MM = 14;
/** There is room for four letters beside a name; the key under the picture says them in full. */
const SHORT = { tacked: "tack", repair: "rep.", finished: "done", released: "rel." };

/** Draws the frame; `chosen(ids)` hears which joints lie under a tap; `next` are the joints that may come next. */
export function framePicture(frame, progress, chosen, next = new Set()) {
  const { low, high, lines, marks } = frame.picture;
  const [width, height] = [high[0] - low[0] + 2 * MARGIN_MM, high[1] - low[1] + 2 * MARGIN_MM];
  const svg = h("svg", {
    class: "picture", viewBox: `${low[0] - MARGIN_MM} ${-(high[1] + MARGIN_MM)} ${width} ${height}`, role: "img",
    "aria-label": pictureWords(frame, progress), onclick: (tap) => actOnce(tap, () => {
      const near = jointsNear(marks, tap);
      if (near.length) chosen(near);
    }),
  });
  svg.append(...lines.map(tube), ...marks.map((mark) => jointMark(frame, progress, mark, next.has(mark.joint))));
  return svg;
}

/** The four arcs of one joint round a middle, large, with twelve at the top. */
export function ring(design, joint, middle, radius) {
  if (!design.quartered) return [h("circle", { class: `arc arc-${quarterWord(design, joint, "q12")}`, cx: middle, cy: middle, r: radius })];
  return QUARTERS.map((quarter) => h("path", { class: `arc arc-${quarterWord(design, joint, quarter)}`, d: arcPath(middle, radius, quarter) }));
}

/** The joints within a finger's width of a tap, nearest first; far from all of them: none. */
export function jointsNear(marks, tap) {
  const screen = tap.currentTarget.getScreenCTM();
  const at = new DOMPoint(tap.clientX, tap.clientY).matrixTransform(screen.inverse());
  const measured = marks.map(({ joint, centre }) => ({ joint, far: Math.hypot(centre[0] - at.x, -centre[1] - at.y) * screen.a }));
  measured.sort((a, b) => a.far - b.far);
  if (!measured.length || measured[0].far > 72) return [];
  return measured.filter(({ far }) => far <= Math.max(30, measured[0].far + 18)).slice(0, 5).map(({ joint }) => joint);
}

function tube({ title, width_mm, points, closed }) {
  const drawn = points.map(([x, y]) => `${x},${-y}`).join(" ");
  const shape = closed ? h("path", { class: "tube-outline", d: `M ${drawn} Z` }) : h("polyline", { class: "tube", points: drawn, "stroke-width": width_mm });
  return h("g", {}, h("title", {}, title), shape);
}

function jointMark(frame, progress, mark, isNext) {
  const design = frame.joints.find((each) => each.id === mark.joint);
  const joint = progress.joints[mark.joint];
  const [x, y] = mark.centre;
  const { label } = mark;
  const word = jointWord(design, joint);
  return h("g", { class: `seam seam-${word}` },
    h("title", {}, `${design.id} ${design.title}: ${word}`),
    mark.tie ? line("tie", mark.tie) : null, label?.leader ? line("leader", label.leader) : null,
    isNext ? h("circle", { class: "next-mark", cx: x, cy: -y, r: mark.radius_mm * 1.75 }) : null,
    h("circle", { class: "seam-gap", cx: x, cy: -y, r: mark.radius_mm }),
    mark.arcs.map(({ quarter, points }) => h("polyline", {
      class: `arc arc-${quarterWord(design, joint, quarter === "all" ? "q12" : quarter)}`, points: points.map(([px, py]) => `${px},${-py}`).join(" "),
    })),
    label ? nameBeside(mark, word) : null);
}

/** The name and the word hug the mark, whichever side of it there was room. */
function nameBeside({ joint, centre, label }, word) {
  const right = label.centre[0] >= centre[0];
  const x = label.centre[0] + ((right ? -1 : 1) * label.width_mm) / 2;
  return h("text", { class: "seam-name", x, y: -label.centre[1], "font-size": label.height_mm, "text-anchor": right ? "start" : "end", "dominant-baseline": "central" },
    joint, word === "open" ? null : h("tspan", { class: "seam-word" }, ` ${SHORT[word] ?? word}`));
}

function line(name, [[x1, y1], [x2, y2]]) {
  return h("line", { class: name, x1, y1: -y1, x2, y2: -y2 });
}

function arcPath(middle, radius, quarter) {
  const [from, to] = ARCS[quarter].map((degrees) => ((degrees - 90) * Math.PI) / 180);
  const point = (angle) => `${(middle + radius * Math.cos(angle)).toFixed(2)} ${(middle + radius * Math.sin(angle)).toFixed(2)}`;
  return `M ${point(from)} A ${radius} ${radius} 0 0 1 ${point(to)}`;
}

function pictureWords(frame, progress) {
  const words = frame.joints.map((design) => `${design.id} ${jointWord(design, progress.joints[design.id])}`);
  return `Side view of ${frame.frame}. ${words.join(", ")}.`;
}
