// Scanning: by camera where the browser offers it, by a scanner that types, by typing; tapping always works beside it.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { scanned, watchCamera } from "./scan.js";

/** Point, scan or type; what was not recognised is said and nothing is blocked. */
export function scanScreen(app) {
  const send = (sent) => { sent?.preventDefault(); takeTyped(app); };
  return page(app, "Scan or type a code", h("div", { class: "two" },
    h("div", {}, h("p", {}, "Frame, joint, rod sleeve or cylinder: the name on the label. A hand scanner works on every screen."),
      app.scanNote ? h("p", { class: "notice-strong", role: "alert" }, app.scanNote) : null,
      h("form", { onsubmit: send }, h("label", { for: "code" }, "Code"),
        h("input", { id: "code", autocomplete: "off", autocapitalize: "characters", "data-key": "code", maxlength: 60 })),
      button({ class: "log", "data-key": "code-go" }, () => send(), "Take this code")),
    cameraPart(app)));
}

function takeTyped(app) {
  const field = document.getElementById("code");
  const code = field.value;
  field.value = "";
  if (code.trim()) scanned(app, code);
}

/** Which line a scanned cylinder goes on. */
export function cylinderLineScreen(app) {
  const { cylinder } = app.where;
  const lot = app.sheet.stock.cylinders.find((each) => each.cylinder === cylinder)?.fill_lot;
  const put = (line) => async () => {
    const onward = app.onward();
    const { id } = await app.log({ kind: "cylinder", line: line.line, off: line.cylinder, on: cylinder, fill_lot: lot });
    onward({ screen: "bead", line: line.line, why: "change", change: id });
  };
  return page(app, `${cylinder}: on which line?`, h("div", { class: "tiles" }, app.lines.map((line) => button(
    { class: "tile", "data-key": `on-${line.line}` }, put(line), h("strong", {}, `On the ${line.use} line`), h("span", {}, `${line.line}, now ${line.cylinder ?? "none"}`)))));
}

function cameraPart(app) {
  if (!("BarcodeDetector" in globalThis)) return h("p", { class: "nothing-asked" }, "This browser cannot read codes by camera.");
  const video = h("video", { class: "camera", muted: true, playsinline: true });
  const start = () => watchCamera(document.querySelector(".camera"), (code) => scanned(app, code)).catch(() => { app.scanNote = "The camera cannot be used. Type the code, or tap."; app.draw(); });
  return h("div", {}, video, button({ class: "main-choice", "data-key": "camera" }, start, "Use the camera"));
}
