// Signs in by a passkey: the device asks its person, the house checks the proof.
import { saidBy } from "../frame/said_by.js";

const button = document.getElementById("passkey");
const told = document.getElementById("passkey-told");

async function comeIn() {
  const asked = await fetch("/sign-in/passkey/ask", { method: "POST" });
  if (!asked.ok) throw new Error(await saidBy(asked));
  const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(await asked.json());
  const shown = await navigator.credentials.get({ publicKey });
  const answer = await fetch("/sign-in/passkey", {
    method: "POST", headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ credential: shown.toJSON(), onward: button.dataset.onward }),
  });
  if (!answer.ok) throw new Error(await saidBy(answer));
  location.assign((await answer.json()).onward);
}

async function pressed() {
  button.disabled = true;
  told.textContent = "";
  await comeIn().catch((trouble) => { told.textContent = `Not signed in: ${trouble.message}`; });
  button.disabled = false;
}

if (button && globalThis.PublicKeyCredential?.parseRequestOptionsFromJSON) {
  button.hidden = false;
  button.addEventListener("click", pressed);
}
