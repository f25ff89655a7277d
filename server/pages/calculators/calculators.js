// A change anywhere in the form fetches the answer anew; without this file the form asks for the whole page instead.

const WAIT_MS = 250;
const form = document.getElementById("asked");
const result = document.getElementById("result");
const spoken = document.getElementById("spoken");
let timer = 0;
let asking = null;

function address(path) {
  return `${path}?${new URLSearchParams(new FormData(form))}`;
}

function showWhatIsAsked() {
  for (const group of document.querySelectorAll("[data-when]")) {
    const [name, value] = group.dataset.when.split("=");
    group.hidden = form.elements[name].value !== value;
  }
}

function tellBesideFields() {
  const wrong = new Map();
  for (const item of result.querySelectorAll("li[data-field]")) wrong.set(item.dataset.field, item.querySelector(".problem"));
  for (const quantity of form.querySelectorAll(".quantity[data-field]")) {
    const told = quantity.querySelector(".told");
    const input = quantity.querySelector("input");
    const problem = wrong.get(quantity.dataset.field);
    if (problem) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
    told.textContent = problem ? problem.textContent : told.dataset.hint;
  }
}

function speak() {
  const told = result.querySelector("[data-spoken], #problems li");
  spoken.textContent = told ? told.textContent.trim().replace(/\s+/g, " ") : "";
}

async function ask() {
  asking?.abort();
  asking = new AbortController();
  result.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(address(`${form.action}/result`), { signal: asking.signal });
    const text = await answer.text();
    // A refusal to answer is no result; wrong figures are answered as one.
    if (!answer.ok && answer.status !== 422) throw new Error(text);
    result.innerHTML = text;
    result.removeAttribute("aria-busy");
    history.replaceState(null, "", address(location.pathname));
    tellBesideFields();
    speak();
  } catch (error) {
    if (error.name === "AbortError") return;
    result.removeAttribute("aria-busy");
    spoken.textContent = "The answer did not come. What is shown is the answer before; press Work it out.";
    form.parentElement.classList.remove("live");
  }
}

function changed(event) {
  if (event.target.matches("[data-reshapes]")) {
    form.requestSubmit();
    return;
  }
  showWhatIsAsked();
  clearTimeout(timer);
  timer = setTimeout(ask, WAIT_MS);
}

form.addEventListener("input", changed);
form.parentElement.classList.add("live");
showWhatIsAsked();
speak();
