import type { Tone } from "../lesson/types";

export interface DrillTone extends Tone {
  pan?: number;
  level?: number;
}

/** One exercise, made and answered by the program. */
export interface Drill {
  kind: string;
  title: string;
  levels: string;
  level: number;
  prompt: string;
  tones: DrillTone[];
  choices: string[];
  answer: number;
  /** Pitch class to sing, C = 0; without it one chooses. */
  sung?: number;
  explanation: string;
}
