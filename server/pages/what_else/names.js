// Offers what the record knows by the letters typed so far, so that nobody has to know a tag by heart.

const PAUSE_MS = 150;

async function offer(fieldset) {
  const [kind, input, list] = ["select", "input", "datalist"].map((each) => fieldset.querySelector(each));
  const asked = new URLSearchParams({ kind: kind.value, typed: input.value });
  const answer = await fetch(`/what-else/names?${asked}`, { headers: { accept: "application/json" } });
  // What was typed meanwhile has asked for itself.
  if (!answer.ok || asked.get("kind") !== kind.value || asked.get("typed") !== input.value) return;
  const found = await answer.json();
  list.replaceChildren(...found.map(([name, words]) => new Option(words, name)));
}

for (const fieldset of document.querySelectorAll(".ask fieldset")) {
  let waiting;
  const soon = () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => offer(fieldset).catch(() => {}), PAUSE_MS);
  };
  fieldset.querySelector("input").addEventListener("focus", soon);
  fieldset.querySelector("input").addEventListener("input", soon);
  fieldset.querySelector("select").addEventListener("change", soon);
}
