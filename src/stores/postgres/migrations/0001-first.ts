import type { SchemaMigration } from '../schema-migration.ts'

/**
 * `body`, `head`, `effect` and `ref` are JSON texts, sealed where the clinic has a key: what is kept has to come back letter
 * by letter, which `jsonb` does not promise. The other columns are counts, instants (ms since 1970), ids and digests.
 */
export const first: SchemaMigration = {
  number: 1,
  name: 'first',
  sql: `
    CREATE TABLE nuchal.setting (
      name text PRIMARY KEY,
      value text NOT NULL
    );

    -- A process that is at work, as long as it says so.
    CREATE TABLE nuchal.process (
      id uuid PRIMARY KEY,
      alive_until timestamptz NOT NULL
    );

    CREATE TABLE nuchal.document (
      id text COLLATE "C" PRIMARY KEY,
      kind text NOT NULL,
      format integer NOT NULL,
      body text NOT NULL,
      head text NOT NULL,
      contacts text[] NOT NULL,
      -- The last 200 event ids, oldest first.
      seen text[] NOT NULL,
      open_alerts integer NOT NULL,
      is_locked boolean NOT NULL,
      next_due_at bigint,
      -- How many rows of the outbox are its own.
      owing integer NOT NULL DEFAULT 0,
      -- The process that sends what is owed, until it has sent all or is dead.
      sender uuid,
      -- When the earliest wake-up comes that is on its way.
      wake_at bigint,
      -- The last numbers that were given.
      outbox_seq bigint NOT NULL DEFAULT 0,
      entry_seq bigint NOT NULL DEFAULT 0
    );
    CREATE INDEX document_due ON nuchal.document (next_due_at, id) WHERE next_due_at IS NOT NULL;
    CREATE INDEX document_owing ON nuchal.document (id) WHERE owing > 0;
    CREATE INDEX document_sender ON nuchal.document (sender) WHERE sender IS NOT NULL;
    CREATE INDEX document_kind ON nuchal.document (kind, id);

    -- Which desk or chart a contact belongs to. The key is a digest where the clinic has a key.
    CREATE TABLE nuchal.contact (
      key text NOT NULL,
      document text COLLATE "C" NOT NULL REFERENCES nuchal.document (id) ON DELETE CASCADE,
      -- A desk comes before a chart.
      place smallint NOT NULL,
      PRIMARY KEY (key, document)
    );
    CREATE INDEX contact_document ON nuchal.contact (document);

    CREATE TABLE nuchal.outbox (
      document text COLLATE "C" NOT NULL REFERENCES nuchal.document (id) ON DELETE CASCADE,
      seq bigint NOT NULL,
      effect_id text NOT NULL,
      -- Of the document that owed it, so that an effect is read in the newest.
      format integer NOT NULL,
      effect text NOT NULL,
      attempts integer NOT NULL DEFAULT 0,
      PRIMARY KEY (document, seq)
    );

    -- What a network calls a message that was sent: the last 50 of a document.
    CREATE TABLE nuchal.sent (
      seq bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
      document text COLLATE "C" NOT NULL REFERENCES nuchal.document (id) ON DELETE CASCADE,
      effect_id text NOT NULL,
      ref text NOT NULL
    );
    CREATE INDEX sent_document ON nuchal.sent (document, seq);

    -- The record. The numbers of a document run without gaps.
    CREATE TABLE nuchal.entry (
      document text COLLATE "C" NOT NULL,
      seq bigint NOT NULL,
      body text NOT NULL,
      PRIMARY KEY (document, seq)
    );

    CREATE FUNCTION nuchal.refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF TG_OP = 'DELETE' AND current_setting('nuchal.erasing', true) = OLD.document THEN
        RETURN OLD;
      END IF;
      RAISE EXCEPTION 'the record is only added to' USING ERRCODE = 'restrict_violation';
    END
    $$;
    CREATE TRIGGER entry_is_kept BEFORE UPDATE OR DELETE ON nuchal.entry
      FOR EACH ROW EXECUTE FUNCTION nuchal.refuse_change();
    CREATE TRIGGER entries_are_kept BEFORE TRUNCATE ON nuchal.entry
      FOR EACH STATEMENT EXECUTE FUNCTION nuchal.refuse_change();

    -- The one way to remove a record: whole, with its document, and as the owner of the schema.
    CREATE FUNCTION nuchal.erase_document(erased text) RETURNS void LANGUAGE plpgsql SECURITY DEFINER
      SET search_path = pg_catalog, nuchal AS $$
    BEGIN
      PERFORM set_config('nuchal.erasing', erased, true);
      DELETE FROM nuchal.document WHERE id = erased;
      DELETE FROM nuchal.entry WHERE document = erased;
      PERFORM set_config('nuchal.erasing', '', true);
    END
    $$;
  `,
}
