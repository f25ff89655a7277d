// This tablet's own key: made once, kept where no script can read it out, and proved by signing a number of the house.

const SAID = "strawline device ";
const KIND = { name: "ECDSA", namedCurve: "P-256" };
const PATIENCE_MS = 8000;

function opened() {
  return new Promise((done, failed) => {
    const asked = indexedDB.open("strawline-device", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("key");
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
}

async function inStore(mode, act) {
  const store = await opened();
  try {
    return await new Promise((done, failed) => {
      const turn = store.transaction("key", mode, { durability: "strict" });
      const asked = act(turn.objectStore("key"));
      turn.oncomplete = () => done(asked.result);
      turn.onerror = turn.onabort = () => failed(turn.error);
    });
  } finally {
    store.close();
  }
}

const base64 = (bytes) => btoa(String.fromCharCode(...new Uint8Array(bytes)));

/** Makes the key in place of any before, and gives its public half (SPKI, base64). */
export async function makeKey() {
  const { privateKey, publicKey } = await crypto.subtle.generateKey(KIND, false, ["sign", "verify"]);
  await inStore("readwrite", (store) => store.put(privateKey, "own"));
  return base64(await crypto.subtle.exportKey("spki", publicKey));
}

async function post(address, told) {
  return fetch(address, {
    method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(told), signal: AbortSignal.timeout(PATIENCE_MS),
  });
}

/** Proves that this browser holds the tablet's key; false where it has none, or the house does not take it. */
export async function prove() {
  if (!globalThis.crypto?.subtle) return false;
  try {
    const key = await inStore("readonly", (store) => store.get("own"));
    if (!key) return false;
    const { number } = await (await post("/device/number", {})).json();
    const signed = await crypto.subtle.sign({ name: "ECDSA", hash: "SHA-256" }, key, new TextEncoder().encode(SAID + number));
    return (await post("/device/proof", { number, signature: base64(signed) })).ok;
  } catch {
    return false;
  }
}

/** Sends what the tablet kept and gives {status, said}; without an answer in time, or with none to read, status is 0. */
export async function sendAsDevice(address, body, type, patienceMs) {
  try {
    const answer = await fetchAsDevice(address, { method: "POST", headers: { "Content-Type": type }, body, signal: AbortSignal.timeout(patienceMs) });
    return { status: answer.status, said: await answer.json() };
  } catch {
    return { status: 0, said: null };
  }
}

/** Fetches, and once more after a proof where the house did not know the device any more. */
export async function fetchAsDevice(address, options) {
  const answer = await fetch(address, options);
  return answer.status === 401 && await prove() ? fetch(address, options) : answer;
}
