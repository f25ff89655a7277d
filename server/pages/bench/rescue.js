// The rescue file: every entry of this tablet as the lines they are, to be carried by hand and sent from another tablet.

import { answer, within } from "./store.js";

const KIND = "strawline rescue file";

/** Saves all that waits, all that was told and the newest receipts to a file. */
export function rescueFile(app) {
  const entries = [...app.waiting, ...app.told].map(({ id, device, line }) => ({ id, device, line }));
  const text = JSON.stringify({ kind: KIND, made: new Date().toISOString(), entries }, null, 1);
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  link.download = `rescue-${app.clock.device}-${new Date().toISOString().slice(0, 10)}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/** Asks for a file and takes its lines up unchanged; an entry the record has already is answered “taken before”. */
export function loadRescue(app) {
  const asked = document.createElement("input");
  asked.type = "file";
  asked.accept = "application/json,.json";
  asked.addEventListener("change", async () => {
    try {
      app.rescued = `Taken up: ${await takeUp(app.store, await asked.files[0].text())}`;
    } catch (trouble) {
      app.rescued = `Not loaded: ${trouble.message}`;
    }
    await app.refresh();
    app.send();
    app.draw();
  });
  asked.click();
}

/** Puts the entries of a rescue file into the outbox under their own ids; gives how many were new here. */
export async function takeUp(store, text) {
  const found = JSON.parse(text);
  if (found.kind !== KIND || !Array.isArray(found.entries)) throw new Error("this is no rescue file of a bench tablet");
  return within(store, ["waiting", "memory"], "readwrite", async ({ waiting, memory }) => {
    let seq = (await answer(memory.get("seq"))) ?? 0;
    const known = new Set((await answer(waiting.getAll())).map((kept) => kept.id));
    const fresh = found.entries.filter(({ id, line }) => typeof id === "string" && typeof line === "string" && !known.has(id));
    for (const { id, device, line } of fresh) waiting.add({ seq: (seq += 1), id, device, entry: JSON.parse(line), line });
    memory.put(seq, "seq");
    return fresh.length;
  });
}
