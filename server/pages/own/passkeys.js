// Makes a passkey in the browser and hands its public half to the house.
import { saidBy } from "../frame/said_by.js";

const form = document.getElementById("passkey-form");
const told = document.getElementById("passkey-told");

async function make() {
  const asked = await fetch("/own/passkeys/ask", { method: "POST" });
  if (!asked.ok) throw new Error(await saidBy(asked));
  const publicKey = PublicKeyCredential.parseCreationOptionsFromJSON(await asked.json());
  const made = await navigator.credentials.create({ publicKey });
  const kept = await fetch("/own/passkeys", {
    method: "POST", headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ title: form.title.value, secret: form.secret.value, credential: made.toJSON() }),
  });
  if (!kept.ok) throw new Error(await saidBy(kept));
  location.assign("/own?done=" + encodeURIComponent("The passkey is kept"));
}

if (form) {
  const able = globalThis.PublicKeyCredential?.parseCreationOptionsFromJSON !== undefined;
  form.querySelector("button").disabled = !able;
  if (!able) told.textContent = "This browser makes no passkeys.";
  form.addEventListener("submit", (sent) => {
    sent.preventDefault();
    const button = form.querySelector("button");
    // Enter sends a form whose button waits, too.
    if (button.disabled) return;
    button.disabled = true;
    told.textContent = "Your device asks you now.";
    make().catch((trouble) => { told.textContent = `Nothing was kept: ${trouble.message}`; }).finally(() => { button.disabled = false; });
  });
}
