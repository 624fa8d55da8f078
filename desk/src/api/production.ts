/** What the page draws of the sound's making; shapes of docs/desk-api.yaml. */

export interface LayerSpan {
  startSeconds: number;
  endSeconds: number;
  layer: string;
  probability: number;
}

export interface PlacedSound {
  startSeconds: number;
  endSeconds: number;
  source: string;
  placement: number;
  probability: number;
}

export interface Gesture {
  startSeconds: number;
  endSeconds: number;
  kind: string;
  probability: number;
}
