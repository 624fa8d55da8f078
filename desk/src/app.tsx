import { useEffect } from "preact/hooks";
import { listen } from "./api/events";
import { DrillsPage } from "./teach/DrillsPage";
import { SketchPage } from "./teach/SketchPage";
import { LessonPage } from "./teach/LessonPage";
import { route } from "./route";
import { ComparePage } from "./shelf/ComparePage";
import { loadSettings, settings } from "./settings/settings";
import { SettingsPage } from "./settings/SettingsPage";
import { SpeakerForm } from "./settings/SpeakerForm";
import { loadSpeaker, speaker } from "./settings/speaker";
import { loadShelf, shelfChanged, workChanged } from "./shelf/state";
import { ShelfPage } from "./shelf/ShelfPage";
import { SongScreen } from "./song/SongScreen";
import { opening, songChanged } from "./song/open";
import { TrendsPage } from "./trends/TrendsPage";

export function App() {
  useEffect(() => {
    void loadSettings();
    void loadSpeaker();
    return listen({
      song: songChanged,
      opening: (told) => (opening.value = told),
      songs: shelfChanged,
      work: workChanged,
      settings: (changed) => (settings.value = changed),
      speaker: (changed) => (speaker.value = changed),
      again: () => {
        void loadSettings();
        void loadSpeaker();
        void loadShelf();
        songChanged(null, 0);
      },
    });
  }, []);
  const place = route.value;
  return (
    <>
      <nav class="places" aria-label="Places">
        <a class="home" href="#/" aria-current={place.at === "shelf" ? "page" : undefined}>Undersong</a>
        <a href="#/" aria-current={place.at === "shelf" ? "page" : undefined}>Shelf</a>
        <a href="#/compare" aria-current={place.at === "compare" ? "page" : undefined}>Compare</a>
        <a href="#/trends" aria-current={place.at === "trends" ? "page" : undefined}>Trends</a>
        <a href="#/settings" aria-current={place.at === "settings" ? "page" : undefined}>Settings</a>
      </nav>
      {speaker.value.shared && !speaker.value.given && place.at !== "settings" && (
        <aside class="who">Several people use this shelf. <SpeakerForm /></aside>
      )}
      {place.at === "song" && <SongScreen key={place.song} id={place.song} />}
      {place.at === "shelf" && <ShelfPage />}
      {place.at === "lesson" && <LessonPage key={`lesson-${place.song}`} song={place.song} />}
      {place.at === "drills" && <DrillsPage key={`drills-${place.song}`} song={place.song} />}
      {place.at === "sketch" && <SketchPage key={`sketch-${place.technique}-${place.song}`} technique={place.technique} song={place.song} />}
      {place.at === "compare" && <ComparePage key={`${place.first}/${place.second}`} first={place.first} second={place.second} />}
      {place.at === "trends" && <TrendsPage />}
      {place.at === "settings" && <SettingsPage />}
    </>
  );
}
