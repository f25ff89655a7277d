// Takes a badge from a scanner that types, wherever the focus is, and from the camera where the browser can read codes.
const form = document.getElementById("badge-form");
const field = document.getElementById("badge");
const BEGINS = "BADGE";
const QUICK_MS = 80;

function take(code) {
  field.value = code;
  form.requestSubmit();
}

function listen() {
  let typed = "";
  let last = 0;
  addEventListener("keydown", (pressed) => {
    if (pressed.target === field) return;
    if (pressed.timeStamp - last > QUICK_MS) typed = "";
    last = pressed.timeStamp;
    if (pressed.key.length === 1) typed += pressed.key;
    const at = typed.toUpperCase().indexOf(BEGINS);
    if (pressed.key !== "Enter" || at < 0) return;
    pressed.preventDefault();
    if (pressed.target.matches("input")) pressed.target.value = "";
    take(typed.slice(at));
  }, true);
}

async function watch(button) {
  const video = document.createElement("video");
  Object.assign(video, { muted: true, playsInline: true });
  button.replaceWith(video);
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
  video.srcObject = stream;
  await video.play();
  const detector = new BarcodeDetector({ formats: ["qr_code"] });
  const look = async () => {
    const [code] = await detector.detect(video).catch(() => []);
    if (!code?.rawValue.toUpperCase().startsWith(BEGINS)) return setTimeout(look, 150);
    stream.getTracks().forEach((track) => track.stop());
    return take(code.rawValue);
  };
  look();
}

function offerCamera() {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Use the camera";
  button.addEventListener("click", () => watch(button).catch(() => field.focus()));
  form.append(button);
}

if (form) {
  listen();
  if ("BarcodeDetector" in globalThis && navigator.mediaDevices) offerCamera();
}
