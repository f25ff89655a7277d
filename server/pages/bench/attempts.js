// Tries one piece of work again and again: never twice at once, in one tab only, and after longer and longer waits.

/** Makes the attempts at `drain`; `lock` names the work among tabs where the browser can hold a lock. */
export function makeAttempts(drain, { lock, firstMs, longestMs, after = setTimeout }) {
  let wait = firstMs;
  let timer = null;
  let running = false;
  let again = false;

  async function run() {
    if (running) { again = true; return; }
    running = true;
    clearTimeout(timer);
    try {
      do { again = false; await alone(); } while (again);
    } finally {
      running = false;
    }
  }

  /** Only one tab at a time; where the browser holds no locks, what receives it knows it by its name or digest. */
  function alone() {
    return navigator.locks ? navigator.locks.request(lock, drain) : drain();
  }

  /** Something went through, so the next trouble waits as little as the first. */
  function through() { wait = firstMs; }

  /** Nobody answered: once more, after a while. */
  function later() {
    clearTimeout(timer);
    timer = after(run, wait * (0.75 + Math.random() / 2));
    wait = Math.min(wait * 2, longestMs);
  }

  function wake() {
    through();
    return run();
  }

  addEventListener("online", wake);
  return { wake, later, through };
}
