// A tap is answered first: what was touched shows it in the very next frame, and the new screen is drawn right after that frame.

/** Stands on what was just touched, for a moment, whatever is drawn meanwhile. */
export const PRESSED = "data-pressed";
const ACTS = Symbol("acts");
const PRESSED_MS = 200;
/** A page nobody looks at gets no frames; what is to be drawn then waits no longer than this. */
const NO_FRAME_MS = 250;

/** A glove that touches twice, or once more while the first tap is still being acted on, means one tap. */
const SAME_TAP_MS = 500;
const SAME_PLACE_PX = 32;

let tapped = null;
let acting = false;
let drawDue = null;

/** Keeps with an element what it does, so that a later drawing can change that and leave the element where it is. */
export function does(made, kind, act) {
  made[ACTS] = { ...made[ACTS], [kind]: act };
  made.addEventListener(kind, hear);
}

/** Marks an element that does nothing itself and holds one that does. */
export function holdsActing(made) { made[ACTS] ??= {}; }

/** Tells whether an element, or anything in it, does something. */
export function acts(node) { return Boolean(node[ACTS]); }

/** Acts, and keeps where and how long: nothing that is drawn there meanwhile is meant by the tap before once more. */
export function actOnce(tap, action) {
  const own = tapped = { at: tap.timeStamp, x: tap.clientX, y: tap.clientY, by: tap.currentTarget, underWay: true };
  const over = () => { own.underWay = false; };
  let acted = null;
  try { acted = action(tap); } finally { if (!acted?.finally) over(); }
  acted?.finally?.(over);
}

function isOnceMore(tap) {
  const since = tapped && tap.type === "click" ? tap.timeStamp - tapped.at : 0;
  return since > 0 && (tapped.underWay || since < SAME_TAP_MS) && isSamePlace(tap, tapped);
}

/** Struck by a key there is no place; then it is the same button. */
function isSamePlace(tap, before) {
  return tap.detail === 0 ? tap.currentTarget === before.by : Math.hypot(tap.clientX - before.x, tap.clientY - before.y) < SAME_PLACE_PX;
}

/** Lets an element that stays do what the freshly made one would. */
export function doAs(stays, fresh) {
  if (!stays[ACTS] && !fresh[ACTS]) return;
  const known = stays[ACTS] ?? {};
  stays[ACTS] = fresh[ACTS] ?? {};
  for (const kind of Object.keys(stays[ACTS])) if (!(kind in known)) stays.addEventListener(kind, hear);
}

/** Wraps drawing: while a tap is acted on it waits for the frame that answers the tap, otherwise it happens at once. */
export function answeringFirst(draw) {
  let asked = null;
  const now = () => {
    const how = asked;
    [asked, drawDue] = [null, null];
    if (how) draw(how);
  };
  return ({ top = false, soon = false } = {}) => {
    const waiting = asked !== null;
    asked = { top: top || (asked?.top ?? false) };
    if (!acting && !soon) { now(); return; }
    drawDue = now;
    if (!waiting) afterTheFrame(now);
  };
}

/** What is due from the tap before is drawn before the next one acts, so that nothing acts on what is no longer so. */
function hear(event) {
  const touched = event.currentTarget;
  if (isOnceMore(event)) return;
  drawDue?.();
  if (!touched.isConnected) return;
  if (event.type === "click") showPressed(touched);
  acting = true;
  try { touched[ACTS]?.[event.type]?.(event); } finally { acting = false; }
}

function showPressed(touched) {
  touched.setAttribute(PRESSED, "");
  setTimeout(() => touched.removeAttribute(PRESSED), PRESSED_MS);
}

function afterTheFrame(work) {
  const late = setTimeout(work, NO_FRAME_MS);
  requestAnimationFrame(() => setTimeout(() => { clearTimeout(late); work(); }));
}
