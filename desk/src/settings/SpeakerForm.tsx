import { useState } from "preact/hooks";
import { speakAs, speaker } from "./speaker";

/** Asks for the name that stands on what is said here. */
export function SpeakerForm({ done }: { done?: () => void }) {
  const [name, setName] = useState(speaker.value.given ? speaker.value.name : "");
  const [said, setSaid] = useState("");
  const keep = async (event: Event) => {
    event.preventDefault();
    try {
      await speakAs(name);
      setSaid(`What you say is kept as ${speaker.value.name}'s.`);
      done?.();
    } catch (trouble) {
      setSaid((trouble as Error).message);
    }
  };
  return (
    <form class="speaker" onSubmit={(event) => void keep(event)}>
      <label>
        <span>Your name on corrections, verdicts, remarks and lessons</span>{" "}
        <input value={name} required maxLength={80} autocomplete="name" onInput={(event) => setName(event.currentTarget.value)} />
      </label>{" "}
      <button type="submit">Keep</button> <span role="status">{said}</span>
    </form>
  );
}
