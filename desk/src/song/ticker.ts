/** Calls back on every frame the browser draws; one loop for all who ask. */
const callers = new Set<() => void>();
let running = false;

function run(): void {
  if (callers.size === 0) {
    running = false;
    return;
  }
  callers.forEach((call) => call());
  requestAnimationFrame(run);
}

export function eachFrame(call: () => void): () => void {
  callers.add(call);
  if (!running) {
    running = true;
    requestAnimationFrame(run);
  }
  return () => callers.delete(call);
}
