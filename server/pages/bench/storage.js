// Whether what the tablet keeps is safe: asked of the browser, and told to the welder when it is not.

const MB = 1e6;

/** Gives {safe, freeMb, full}, or null where the browser says nothing; asks for protection on the way. */
export async function storageState() {
  const storage = navigator.storage;
  if (!storage?.estimate) return { safe: false, freeMb: 0, full: false };
  const { quota = 0, usage = 0 } = await storage.estimate().catch(() => ({}));
  const kept = await (storage.persisted?.() ?? Promise.resolve(false)).catch(() => false);
  const safe = kept || await (storage.persist?.() ?? Promise.resolve(false)).catch(() => false);
  const freeMb = Math.round((quota - usage) / MB);
  return { safe, freeMb, full: quota > 0 && usage > 0.9 * quota };
}
