// The rescue file: every entry of this tablet as the lines they are, and its pictures, to be carried by hand and sent from another tablet.

import { photosFromRescue, photosToRescue } from "./photo_rescue.js";
import { answer, within } from "./store.js";

const KIND = "strawline rescue file";

/** Saves all that waits, pictures too, and all that was told to a file. */
export async function rescueFile(app) {
  const entries = [...app.waiting, ...app.told].map(({ id, device, line }) => ({ id, device, line }));
  const text = JSON.stringify({ kind: KIND, made: new Date().toISOString(), entries, photos: await photosToRescue(app) }, null, 1);
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
      const text = await asked.files[0].text();
      app.rescued = `Taken up: ${await takeUp(app.store, text)}${await photosFromRescue(app, JSON.parse(text).photos)}`;
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
