/** Shapes of docs/desk-api.yaml for what a whole shelf shows. */

export interface Share {
  songs: number;
  of: number;
  share: number;
  low: number;
  high: number;
}

export interface TrendGroup extends Share {
  name: string;
  tellable: boolean;
  songIds: number[];
}

export interface Trend {
  words: string;
  by: Grouping;
  all: Share;
  groups: TrendGroup[];
  ungrouped: number;
  change?: { value: number; low: number; high: number; told: boolean };
  said: string;
}

export type Grouping = "year" | "decade" | "artist" | "origin";

export interface Unusual {
  rare: (Share & { technique: string; name: string })[];
  bits?: number;
  said: string;
}

export interface NamedTechnique {
  technique: string;
  kind: string;
  name: string;
}

/** What is counted and how, as the desk is asked. */
export interface TrendQuestion {
  technique?: string;
  progression?: string;
  by: Grouping;
  from: string;
}
