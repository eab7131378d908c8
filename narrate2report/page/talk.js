// The way to the program: every answer is JSON, every refusal carries the program's own sentence.

export async function ask(path) {
  const answer = await fetch(path);
  const body = await answer.json().catch(() => ({ error: "the program does not answer as it should; is it still running?" }));
  if (!answer.ok) throw new Error(body.error);
  return body;
}

export async function post(path, value) {
  let answer;
  try {
    answer = await fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(value) });
  } catch {
    throw new Error("the program does not answer, so this was not kept; is it still running?");
  }
  const body = await answer.json().catch(() => ({ error: "this was not kept: the program refused it" }));
  return { ok: answer.ok, body };
}

// Sends one decision. `takeIn` is given what it changed, and what another window decided meanwhile, also where it was
// refused; the error then carries what `takeIn` made of it.
export async function sendDecision(request, by, seen, takeIn) {
  const answer = await post("api/decide", { request, by, seen });
  const touched = "head" in answer.body ? takeIn(answer.body) : null;
  if (!answer.ok) throw Object.assign(new Error(answer.body.error), { touched });
  return touched;
}
