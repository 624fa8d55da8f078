package undersong.shelf;

import java.util.Optional;

/** Settings that are remembered for each speaker, as JSON texts by name. */
public final class Settings {
  private final ShelfDatabase database;

  Settings(ShelfDatabase database) {
    this.database = database;
  }

  /** What this speaker set; else what was set before there were several. */
  public Optional<String> get(String speaker, String name) {
    return database.read(
        handle ->
            handle
                .createQuery(
                    "SELECT json FROM setting WHERE name = :name AND author IN (:speaker, '')"
                        + " ORDER BY author DESC LIMIT 1")
                .bind("speaker", speaker)
                .bind("name", name)
                .mapTo(String.class)
                .findOne());
  }

  public void put(String speaker, String name, String json) {
    database.write(
        handle ->
            handle.execute(
                "INSERT INTO setting (author, name, json) VALUES (?, ?, ?)"
                    + " ON CONFLICT (author, name) DO UPDATE SET json = excluded.json",
                speaker,
                name,
                json));
  }
}
