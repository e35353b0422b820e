// Forms are sent without leaving the page, and what differs in the answer takes its place.
// Everything works without this file too: then each form brings a whole page.

const byId = (id) => document.getElementById(id);
const strip = () => byId("strip");
const say = (words) => { byId("said").textContent = words; };
let newest = 0;

// What comes by itself gives way to whatever was asked for since; what a person asked for comes.
async function bring(address, options = {}, asked = Boolean(options.method)) {
  const turn = ++newest;
  const answer = await fetch(address, { credentials: "same-origin", ...options });
  const text = await answer.text();
  if (turn !== newest && !asked) return null;
  return new DOMParser().parseFromString(text, "text/html");
}

// What a person has typed but not saved, opened or focused outlives the swap.
function remember(part) {
  const typed = new Map();
  for (const one of part.querySelectorAll("input[id]:not([type=radio]), select[id]")) {
    const standing = one.tagName === "SELECT" ? [...one.options].find((o) => o.defaultSelected)?.value ?? one.options[0]?.value : one.defaultValue;
    if (one.value !== standing) typed.set(one.id, one.value);
  }
  const open = new Map([...part.querySelectorAll("details")].map((one) => [nameOf(one), one.open]));
  const scrolled = new Map([...part.querySelectorAll(".sheet")].map((one, at) => [at, one.scrollLeft]));
  const active = document.activeElement;
  const focus = part.contains(active) ? { id: active.id, label: active.getAttribute("aria-label"), form: active.form?.id, href: active.getAttribute("href"), text: active.textContent, start: active.selectionStart } : null;
  const refused = [...part.querySelectorAll("form[id] .wrong.now")].map((one) => {
    const form = one.closest("form");
    return { form: form.id, words: one.textContent, names: [...form.querySelectorAll("[aria-invalid]")].map((field) => field.name) };
  });
  return { typed, open, scrolled, focus, refused };
}

const nameOf = (details) => `${details.closest("[id]")?.id}/${details.querySelector("summary")?.firstChild?.textContent}`;

function recall(part, kept, sent) {
  for (const [id, value] of kept.typed) {
    const one = byId(id);
    if (one && !sent?.has(id)) one.value = value;
  }
  for (const { form: id, words, names } of kept.refused) {
    const form = byId(id);
    if (!form || [...form.elements].some((one) => one.id && sent?.has(one.id))) continue;
    tellWrong(form, words, [...form.elements].filter((one) => names.includes(one.name)));
  }
  for (const one of part.querySelectorAll("details")) {
    const open = kept.open.get(nameOf(one));
    if (open !== undefined) one.open = open;
  }
  [...part.querySelectorAll(".sheet")].forEach((one, at) => { one.scrollLeft = kept.scrolled.get(at) ?? 0; });
  if (!kept.focus) return;
  const { id, label, form, href, text } = kept.focus;
  const candidates = [...part.querySelectorAll("a, button, input, select, summary, [tabindex='0']")];
  const found = (id && byId(id))
    || candidates.find((one) => label && one.getAttribute("aria-label") === label)
    || candidates.find((one) => form && one.form?.id === form && one.textContent === text)
    || candidates.find((one) => href && one.getAttribute("href") === href)
    || candidates.find((one) => text && one.textContent === text)
    || candidates[0];
  found?.focus({ preventScroll: true });
}

// Parts in which an island draws are compared as they came, not as the island made them.
const asItCame = new WeakMap();
const hasIsland = (part) => part.querySelector("[data-plot], [data-row], [data-handle], .chapter");
const keepAsItCame = (part) => { if (hasIsland(part)) asItCame.set(part, part.cloneNode(true)); };
document.querySelectorAll("[data-swap]").forEach(keepAsItCame);

// A phone shows the drawings and tables of a question when they are asked for.
const phone = matchMedia("(max-width: 44rem)");
function foldChapters(part) {
  if (phone.matches) part.querySelectorAll("details.chapter").forEach((one) => { one.open = false; });
}
foldChapters(document);

// What has the focus stays where it is on the screen, whatever grows above it.
const placeOf = (one) => (one && one !== document.body ? one.getBoundingClientRect().top : null);

function swap(page, sent) {
  const before = placeOf(document.activeElement);
  for (const now of document.querySelectorAll("[data-swap]")) {
    const next = page.getElementById(now.id);
    if (!next && now.matches(".topic")) now.remove(); // drawn, and nothing on it has a sense
    if (!next || next.isEqualNode(asItCame.get(now) ?? now)) continue;
    const kept = remember(now);
    now.replaceWith(document.adoptNode(next));
    keepAsItCame(next);
    foldChapters(next);
    recall(next, kept, sent);
  }
  const after = placeOf(document.activeElement);
  if (before !== null && after !== null && before > 0 && before < innerHeight) scrollBy(0, after - before);
  watch();
  drawRest().catch(() => {});
}

// Drawings come after the page, one topic after the other; whatever a person does goes first.
let drawing = false;
async function drawRest() {
  if (drawing) return;
  drawing = true;
  try {
    for (let link, last; (link = document.querySelector("a[data-draw]")) && link !== last;) {
      const address = new URL(link.href);
      for (const [name, value] of new URLSearchParams(location.search)) {
        if (!address.searchParams.has(name)) address.searchParams.append(name, value);
      }
      const page = await bring(address.pathname + address.search);
      if (!page) continue; // something newer was asked for meanwhile
      last = link;
      swap(page);
    }
  } finally {
    drawing = false;
  }
}

async function reload() {
  const page = await bring(location.href);
  if (page) swap(page);
}

function tellWrong(form, words, faulty) {
  const about = form.querySelector(".about");
  const told = document.createElement("span");
  told.className = "wrong now";
  told.textContent = words;
  about?.querySelectorAll(".now").forEach((one) => one.remove());
  about?.prepend(told);
  for (const one of faulty) one.setAttribute("aria-invalid", "true");
}

function refuse(form, answer) {
  const about = form.querySelector(".about");
  const wrong = [...answer.querySelectorAll(".wrong")].map((one) => one.textContent).join(" ");
  if (!about || !wrong) return false;
  const fields = [...answer.querySelectorAll("[data-field]")].map((one) => fieldOf(form, one.dataset.field));
  const faulty = [form.querySelector("[name=value]"), ...fields].filter(Boolean);
  tellWrong(form, wrong, faulty);
  faulty[0]?.focus({ preventScroll: true });
  say(wrong);
  return true;
}

// The field of a form for something new that a problem is about, by the last word of its place.
function fieldOf(form, place) {
  const entry = place.split(".").pop().replace(/\[.*$/, "");
  const named = [...form.elements].filter((one) => one.value && one.name.split(".").pop() === entry);
  const within = (one) => place.includes(`.${form.elements[one.name.replace(/[^.]*$/, "name")]?.value}.`);
  return named.find(within) ?? named[0];
}

async function send(form, button) {
  for (const one of form.querySelectorAll("[aria-invalid]")) one.removeAttribute("aria-invalid");
  const body = new URLSearchParams(new FormData(form, button));
  if (!("leads" in form.dataset)) body.set("here", location.pathname + location.search);
  button?.setAttribute("aria-busy", "true");
  try {
    const page = await bring(form.action, { method: "POST", body });
    if (!page) return;
    const answer = page.querySelector("[data-answer]");
    if (answer && (answer.querySelector(".two") || !refuse(form, answer))) {
      const main = byId("main");
      main.replaceChildren(document.adoptNode(answer));
      main.focus();
    } else if (!answer) {
      if ("leads" in form.dataset) return location.assign(form.elements.here.value);
      const sent = new Set([...form.elements].map((one) => one.id));
      if ("empties" in form.dataset) form.reset();
      swap(page, sent);
      const counts = [...document.querySelectorAll("#strip .state")].map((one) => one.textContent.slice(2));
      say(`Saved. ${counts.join(", ")}.`);
    }
  } finally {
    button?.removeAttribute("aria-busy");
  }
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.method !== "post" || form.enctype === "multipart/form-data") return;
  event.preventDefault();
  if (event.submitter?.getAttribute("aria-disabled")) return say(event.submitter.title);
  send(form, event.submitter).catch(() => say("The workbench does not answer. Is it still running?"));
});

// A zone or a member on a drawing leads to its form beside it; the page stays where it is.
document.addEventListener("click", (event) => {
  const part = event.target.closest?.("a.zone, a.member");
  if (!part || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  const address = part.getAttribute("href");
  history.pushState(null, "", address); // whatever is loaded from now on is of this place
  bring(address, {}, true).then((page) => {
    swap(page);
    const form = byId(address.split("#")[1]);
    form?.querySelector("input[name=found]:checked, .entry select, .entry input:not([type=hidden])")?.focus({ preventScroll: wide.matches });
    if (!wide.matches) form?.scrollIntoView({ block: "center" });
  }).catch(() => say("The workbench does not answer. Is it still running?"));
});

// Escape closes what was opened around the place where one is.
document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape" || event.defaultPrevented || event.target.tagName === "SELECT") return;
  const opened = event.target.closest?.("details[open]:not(.chapter)");
  if (!opened || (opened === drawer && wide.matches)) return;
  opened.open = false;
  opened.querySelector("summary").focus();
});
addEventListener("popstate", () => { reload().catch(() => {}); });

// Wait for verdicts to settle and for what remains possible; notice changes from outside.
let waiting = "";

function watch() {
  const one = strip();
  const { version, settled } = one.dataset;
  const choices = byId("count")?.dataset.choices;
  const wanted = settled === "no" ? "settle" : choices === "no" ? "choices" : "";
  const key = `${wanted}${version}`;
  if (!wanted || waiting === key) return;
  waiting = key;
  ask(`&${wanted}`).then(() => { waiting = ""; }).then(reload).catch(() => {});
}

async function ask(more = "") {
  const answer = await fetch(`/state?version=${strip().dataset.version}${more}`, { credentials: "same-origin" });
  if (!answer.ok) throw new Error(answer.statusText);
  return answer.json();
}

setInterval(async () => {
  if (document.hidden || waiting) return;
  try {
    const { version } = await ask();
    if (String(version) !== strip().dataset.version) await reload();
  } catch {
    say("The workbench does not answer. Is it still running?");
  }
}, 3000);

const drawer = byId("drawer");
const wide = matchMedia("(min-width: 60rem)");
const fit = () => { drawer.open = wide.matches; };
wide.addEventListener("change", fit);
fit();

document.addEventListener("work-moved", () => reload().catch(() => {}));

// An address that points into folded parts opens them.
function unfold() {
  const target = byId(decodeURIComponent(location.hash.slice(1)));
  for (let one = target; one; one = one.parentElement) if (one.tagName === "DETAILS") one.open = true;
  target?.scrollIntoView({ block: "center" });
}
addEventListener("hashchange", unfold);
unfold();
watch();
drawRest().catch(() => {});
