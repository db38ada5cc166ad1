"""Eyes for theatre, by day and list."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m034_theatre(db: Database) -> None:
    """What was decided for theatre has its day and list; those that were confirmed have them from the step that says so."""
    db.executescript(
        """
        ALTER TABLE tasks ADD COLUMN theatre_on TEXT;
        ALTER TABLE tasks ADD COLUMN theatre_list TEXT NOT NULL DEFAULT '';
        CREATE INDEX tasks_for_theatre ON tasks (theatre_on, theatre_list) WHERE kind = 'theatre' AND NOT given_up;
        UPDATE tasks SET theatre_list = done_words, theatre_on = (
            SELECT json_extract(s.detail, '$.theatre_on') FROM callback_steps s
            WHERE s.callback_id = tasks.callback_id AND s.step = 'done' AND s.at = tasks.done_at)
        WHERE kind = 'theatre' AND done_at IS NOT NULL AND NOT given_up;
        """
    )
