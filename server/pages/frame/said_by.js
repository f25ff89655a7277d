// What an answer that took nothing says went wrong.

/** The words of a problem; an answer that is no problem of ours is told as it stands. */
export async function saidBy(answer) {
  const text = await answer.text();
  try {
    return JSON.parse(text).detail;
  } catch {
    return text;
  }
}
