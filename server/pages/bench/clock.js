// The tablet's two clocks: the one it shows, which may be wrong, and the steady one counted since this start.

/** Random hexadecimal digits; works over plain http too, where nicer ways of making ids do not exist. */
export function randomHex(bytes = 8) {
  return Array.from(crypto.getRandomValues(new Uint8Array(bytes)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Makes the clock of this start: every entry carries its device, boot, device time and steady counter. */
export function makeClock(device, boot = randomHex()) {
  return {
    device,
    boot,
    stamp: () => ({
      device,
      boot,
      device_time: new Date().toISOString(),
      mono_ms: Math.round(performance.now()),
    }),
  };
}

/** A moment some milliseconds ago, as this tablet's clock has it. */
export function momentAgo(ms) {
  return new Date(Date.now() - ms).toISOString();
}

/** Today by the shop's wall clock, 2025-05-05: limit cards start and end on days of the shop. */
export function shopDay(zone, now = new Date()) {
  if (!calendars.has(zone)) calendars.set(zone, new Intl.DateTimeFormat("sv-SE", { timeZone: zone }));
  return calendars.get(zone).format(now);
}

/** Making a calendar takes longer than all else on a screen, so each zone's is made once. */
const calendars = new Map();
const walls = new Map();

/** The time of day on the shop's wall, 13:22. */
export function wallClock(zone, moment) {
  if (!walls.has(zone)) walls.set(zone, new Intl.DateTimeFormat("en-GB", { timeZone: zone, hour: "2-digit", minute: "2-digit" }));
  return walls.get(zone).format(new Date(moment));
}

/** Minutes and seconds, 4:07. */
export function minutesAndSeconds(seconds) {
  const whole = Math.max(0, Math.ceil(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
