// Signs in by a passkey: the device asks its person, the house checks the proof.
const button = document.getElementById("passkey");
const told = document.getElementById("passkey-told");

async function comeIn() {
  const asked = await fetch("/sign-in/passkey/ask", { method: "POST" });
  const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(await asked.json());
  const shown = await navigator.credentials.get({ publicKey });
  const answer = await fetch("/sign-in/passkey", {
    method: "POST", headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ credential: shown.toJSON(), onward: button.dataset.onward }),
  });
  const said = await answer.json();
  if (!answer.ok) throw new Error(said.detail);
  location.assign(said.onward);
}

if (button && globalThis.PublicKeyCredential?.parseRequestOptionsFromJSON) {
  button.hidden = false;
  button.addEventListener("click", () => comeIn().catch((trouble) => { told.textContent = `Not signed in: ${trouble.message}`; }));
}
