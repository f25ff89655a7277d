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
    if (pressed.key?.length === 1) typed += pressed.key;
    const at = typed.toUpperCase().indexOf(BEGINS);
    if (pressed.key !== "Enter" || at < 0) return;
    pressed.preventDefault();
    if (pressed.target.matches("input")) pressed.target.value = "";
    take(typed.slice(at));
  }, true);
}

async function seen(video, stream) {
  video.srcObject = stream;
  await video.play();
  const detector = new BarcodeDetector({ formats: ["qr_code"] });
  while (stream.active) {
    const [code] = await detector.detect(video).catch(() => []);
    if (code?.rawValue.toUpperCase().startsWith(BEGINS)) return code.rawValue;
    await new Promise((later) => setTimeout(later, 150));
  }
  throw new Error("it was switched off");
}

async function watch() {
  const video = Object.assign(document.createElement("video"), { muted: true, playsInline: true });
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
  form.append(video);
  try {
    return await seen(video, stream);
  } finally {
    stream.getTracks().forEach((track) => track.stop());
    video.remove();
  }
}

function offerCamera() {
  const button = Object.assign(document.createElement("button"), { type: "button", textContent: "Use the camera" });
  const told = Object.assign(document.createElement("p"), { role: "status" });
  button.addEventListener("click", () => {
    button.hidden = true;
    told.textContent = "Hold the badge in front of the camera.";
    watch().then(take, (trouble) => {
      told.textContent = `The camera cannot be used (${trouble.message}). Type the badge, scan it by hand, or tap your name.`;
      button.hidden = false;
      field.focus();
    });
  });
  form.append(button, told);
}

if (form) {
  listen();
  if ("BarcodeDetector" in globalThis && navigator.mediaDevices) offerCamera();
}
