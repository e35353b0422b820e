// How far long work is: asked for while some runs, and the page is brought anew when that changes.

const shown = () => document.getElementById("tasks");

async function look() {
  const tasks = shown();
  if (document.hidden || !tasks?.dataset.tasks.includes("running")) return;
  const answer = await fetch("/state", { credentials: "same-origin" });
  if (!answer.ok) return;
  const told = (await answer.json()).tasks;
  const now = told.map((one) => `${one.name}:${one.standing} `).join("");
  if (now !== tasks.dataset.tasks) {
    document.dispatchEvent(new Event("work-moved"));
    return;
  }
  for (const one of told) {
    const form = tasks.querySelector(`[data-task="${one.name}"]`);
    const bar = form?.querySelector("progress");
    if (!bar) continue;
    bar.value = one.share;
    form.querySelector(".task-share").textContent = `${one.share} %`;
  }
}

setInterval(() => look().catch(() => {}), 700);
