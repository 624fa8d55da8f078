/** Acts once the frame that is being made stands before the listener; gives the way to call it off. */
export function afterFrame(act: () => void): () => void {
  let wait: ReturnType<typeof setTimeout> | undefined;
  const frame = requestAnimationFrame(() => { wait = setTimeout(act); });
  return () => {
    cancelAnimationFrame(frame);
    clearTimeout(wait);
  };
}
