package undersong.shelf;

import java.util.Optional;

/** Settings that are remembered, as JSON texts by name. */
public final class Settings {
  private final ShelfDatabase database;

  Settings(ShelfDatabase database) {
    this.database = database;
  }

  public Optional<String> get(String name) {
    return database.read(
        handle ->
            handle
                .createQuery("SELECT json FROM setting WHERE name = :name")
                .bind("name", name)
                .mapTo(String.class)
                .findOne());
  }

  public void put(String name, String json) {
    database.write(
        handle ->
            handle.execute(
                "INSERT INTO setting (name, json) VALUES (?, ?)"
                    + " ON CONFLICT (name) DO UPDATE SET json = excluded.json",
                name,
                json));
  }
}
