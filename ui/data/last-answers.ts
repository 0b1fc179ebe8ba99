/** Most answers remembered while the page stands; the one longest unused goes first. */
const most = 60;
const answers = new Map<string, unknown>();

/** The last answer to a question since the page was loaded: shown at once while the question is asked anew. */
export function lastAnswer<T>(key: string): T | undefined {
  const answer = answers.get(key) as T | undefined;
  if (answer === undefined) return undefined;
  answers.delete(key);
  answers.set(key, answer);
  return answer;
}

/** Remembers an answer. `key` must name the question among all questions of the program. */
export function rememberAnswer(key: string, answer: unknown): void {
  answers.delete(key);
  if (answer === undefined) return;
  answers.set(key, answer);
  for (const oldest of answers.keys()) {
    if (answers.size <= most) return;
    answers.delete(oldest);
  }
}
