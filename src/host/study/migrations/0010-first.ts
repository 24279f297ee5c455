/** Version 10: the first study. Column meanings stand in docs/study-format.md and src/contract/rows.ts. */
export const version = 10;

export const sql = `
CREATE TABLE setting (id TEXT PRIMARY KEY, value TEXT NOT NULL CHECK (json_valid(value))) STRICT;
CREATE TABLE evaluator (id TEXT PRIMARY KEY, name TEXT NOT NULL) STRICT;
CREATE TABLE team (id TEXT PRIMARY KEY, name TEXT NOT NULL, defence_delta REAL, defence_carries INTEGER) STRICT;
CREATE TABLE runner (
  id TEXT PRIMARY KEY, name TEXT NOT NULL, team_id TEXT REFERENCES team(id), jersey INTEGER, position TEXT,
  class_year TEXT, height_inches REAL, weight_pounds REAL, note TEXT
) STRICT;
CREATE INDEX runner_team ON runner(team_id);
CREATE TABLE game (
  id TEXT PRIMARY KEY, season INTEGER, week INTEGER, date TEXT,
  home_team_id TEXT NOT NULL REFERENCES team(id), away_team_id TEXT NOT NULL REFERENCES team(id),
  hash_preset TEXT NOT NULL, note TEXT
) STRICT;
CREATE TABLE official_line (
  id TEXT PRIMARY KEY, game_id TEXT NOT NULL REFERENCES game(id), runner_id TEXT NOT NULL REFERENCES runner(id),
  attempts INTEGER NOT NULL CHECK (attempts >= 0), yards INTEGER, snaps INTEGER, source TEXT,
  UNIQUE (game_id, runner_id)
) STRICT;
CREATE INDEX official_line_runner ON official_line(runner_id);
CREATE TABLE film (
  id TEXT PRIMARY KEY, name TEXT NOT NULL, path TEXT NOT NULL, fingerprint TEXT NOT NULL, bytes INTEGER NOT NULL,
  frames INTEGER NOT NULL CHECK (frames > 0), width INTEGER NOT NULL, height INTEGER NOT NULL, seconds REAL NOT NULL,
  rate REAL NOT NULL, codec TEXT NOT NULL, angle TEXT NOT NULL
) STRICT;
CREATE INDEX film_fingerprint ON film(fingerprint);
CREATE TABLE rubric_version (
  id TEXT PRIMARY KEY, number INTEGER NOT NULL UNIQUE, name TEXT NOT NULL, body TEXT NOT NULL CHECK (json_valid(body)),
  made_at INTEGER NOT NULL
) STRICT;
CREATE TABLE play (
  id TEXT PRIMARY KEY, game_id TEXT NOT NULL REFERENCES game(id), position REAL NOT NULL, series INTEGER,
  quarter INTEGER, clock_seconds INTEGER, offence_team_id TEXT REFERENCES team(id), score_for INTEGER,
  score_against INTEGER, down INTEGER CHECK (down BETWEEN 1 AND 4), to_go INTEGER CHECK (to_go BETWEEN 1 AND 99),
  spot INTEGER CHECK (spot BETWEEN 1 AND 99), hash TEXT, backs INTEGER, tight_ends INTEGER, formation TEXT, motion TEXT,
  back_alignment TEXT, back_depth REAL, concept TEXT, scheme TEXT, direction TEXT, designed_gap TEXT,
  give_is_choice INTEGER, pullers INTEGER, lead_blockers INTEGER, front TEXT, box INTEGER, safeties_deep INTEGER,
  pressure TEXT, gain INTEGER, result TEXT, penalty TEXT, penalty_yards INTEGER, note TEXT,
  CHECK (to_go IS NULL OR spot IS NULL OR to_go <= 100 - spot),
  CHECK (gain IS NULL OR spot IS NULL OR gain <= 100 - spot)
) STRICT;
CREATE INDEX play_game ON play(game_id, position);
CREATE TABLE part (
  id TEXT PRIMARY KEY, play_id TEXT NOT NULL REFERENCES play(id), runner_id TEXT NOT NULL REFERENCES runner(id),
  kind TEXT NOT NULL, counts INTEGER NOT NULL, counts_because TEXT, gain INTEGER, hit_gap TEXT, path TEXT,
  point_of_attack TEXT, penetration TEXT, read_defender TEXT, read_source TEXT, free_defender TEXT, failed_block TEXT,
  cleared_yards REAL, contact_at REAL, contact_by TEXT, contact_place TEXT, missed_tackles INTEGER, ball_arm TEXT,
  fumble TEXT, out_of_bounds TEXT, come_back INTEGER NOT NULL, note TEXT,
  UNIQUE (play_id, runner_id)
) STRICT;
CREATE INDEX part_runner ON part(runner_id);
CREATE TABLE span (
  id TEXT PRIMARY KEY, play_id TEXT REFERENCES play(id), film_id TEXT NOT NULL REFERENCES film(id), angle TEXT NOT NULL,
  kind TEXT NOT NULL, in_frame INTEGER NOT NULL, in_time REAL NOT NULL, out_frame INTEGER NOT NULL, out_time REAL NOT NULL,
  time_scale REAL, clearness TEXT, CHECK (out_frame > in_frame AND in_frame >= 0)
) STRICT;
CREATE INDEX span_play ON span(play_id);
CREATE INDEX span_film ON span(film_id, in_frame);
CREATE TABLE moment (
  id TEXT PRIMARY KEY, span_id TEXT NOT NULL REFERENCES span(id), part_id TEXT REFERENCES part(id), name TEXT NOT NULL,
  frame INTEGER NOT NULL, time REAL NOT NULL
) STRICT;
CREATE INDEX moment_span ON moment(span_id);
CREATE INDEX moment_part ON moment(part_id);
CREATE TABLE step (
  id TEXT PRIMARY KEY, span_id TEXT NOT NULL REFERENCES span(id), part_id TEXT NOT NULL REFERENCES part(id),
  foot TEXT NOT NULL, frame INTEGER NOT NULL, time REAL NOT NULL, pixel_x REAL, pixel_y REAL, field_x REAL, field_y REAL
) STRICT;
CREATE INDEX step_span ON step(span_id);
CREATE INDEX step_part ON step(part_id);
CREATE TABLE mark (
  id TEXT PRIMARY KEY, part_id TEXT NOT NULL REFERENCES part(id), evaluator_id TEXT NOT NULL REFERENCES evaluator(id),
  rubric_version_id TEXT NOT NULL REFERENCES rubric_version(id), look_id TEXT, trait TEXT NOT NULL, state TEXT NOT NULL,
  value REAL CHECK (value IS NULL OR (value BETWEEN 1 AND 5 AND value * 2 = CAST(value * 2 AS INTEGER))),
  clearness TEXT, note TEXT, span_id TEXT REFERENCES span(id), frame INTEGER, time REAL, marked_at INTEGER NOT NULL,
  CHECK ((state = 'shown') = (value IS NOT NULL))
) STRICT;
CREATE UNIQUE INDEX mark_once ON mark(part_id, evaluator_id, trait, ifnull(look_id, ''));
CREATE INDEX mark_evaluator ON mark(evaluator_id);
CREATE INDEX mark_span ON mark(span_id);
CREATE INDEX mark_rubric ON mark(rubric_version_id);
CREATE TABLE holding (
  id TEXT PRIMARY KEY, part_id TEXT NOT NULL REFERENCES part(id), evaluator_id TEXT NOT NULL REFERENCES evaluator(id),
  answer TEXT NOT NULL, because TEXT, UNIQUE (part_id, evaluator_id)
) STRICT;
CREATE TABLE decision (
  id TEXT PRIMARY KEY, part_id TEXT NOT NULL REFERENCES part(id), evaluator_id TEXT NOT NULL REFERENCES evaluator(id),
  span_id TEXT NOT NULL REFERENCES span(id), frame INTEGER NOT NULL, time REAL NOT NULL, sealed INTEGER NOT NULL,
  note TEXT, UNIQUE (part_id, evaluator_id)
) STRICT;
CREATE INDEX decision_span ON decision(span_id);
CREATE TABLE lane (
  id TEXT PRIMARY KEY, decision_id TEXT NOT NULL REFERENCES decision(id), position REAL NOT NULL, name TEXT NOT NULL,
  state TEXT NOT NULL, low INTEGER NOT NULL, likely INTEGER NOT NULL, high INTEGER NOT NULL, taken INTEGER NOT NULL,
  path TEXT NOT NULL CHECK (json_valid(path)), CHECK (low <= likely AND likely <= high)
) STRICT;
CREATE INDEX lane_decision ON lane(decision_id);
CREATE TABLE chalk (
  id TEXT PRIMARY KEY, span_id TEXT NOT NULL REFERENCES span(id), evaluator_id TEXT NOT NULL REFERENCES evaluator(id),
  from_frame INTEGER NOT NULL, to_frame INTEGER NOT NULL, kind TEXT NOT NULL, points TEXT NOT NULL CHECK (json_valid(points)),
  text TEXT, CHECK (to_frame >= from_frame)
) STRICT;
CREATE INDEX chalk_span ON chalk(span_id);
CREATE TABLE writeup (
  id TEXT PRIMARY KEY, runner_id TEXT NOT NULL REFERENCES runner(id), evaluator_id TEXT NOT NULL REFERENCES evaluator(id),
  role TEXT, fit TEXT, change TEXT, verdict TEXT NOT NULL CHECK (json_valid(verdict)),
  evidence TEXT NOT NULL CHECK (json_valid(evidence)), UNIQUE (runner_id, evaluator_id)
) STRICT;

CREATE TABLE journal (
  position INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, kind TEXT NOT NULL CHECK (kind IN ('change', 'undo', 'redo')),
  by TEXT, at INTEGER NOT NULL, label TEXT NOT NULL, undoes TEXT, operations TEXT NOT NULL CHECK (json_valid(operations))
) STRICT;
CREATE INDEX journal_by ON journal(by, kind, position);
CREATE INDEX journal_undoes ON journal(undoes) WHERE undoes IS NOT NULL;
CREATE TABLE journal_row (
  position INTEGER NOT NULL REFERENCES journal(position), table_name TEXT NOT NULL, row_id TEXT NOT NULL,
  PRIMARY KEY (table_name, row_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE frame_table (fingerprint TEXT PRIMARY KEY, bytes BLOB NOT NULL) STRICT;
CREATE TABLE still (id TEXT PRIMARY KEY, fingerprint TEXT NOT NULL, frame INTEGER NOT NULL, jpeg BLOB NOT NULL, UNIQUE (fingerprint, frame)) STRICT;
CREATE TABLE issued (
  id TEXT PRIMARY KEY, runner_id TEXT NOT NULL, issued_at INTEGER NOT NULL, evaluator_name TEXT NOT NULL, paper TEXT NOT NULL,
  made_from TEXT NOT NULL CHECK (json_valid(made_from)), html_sha256 TEXT NOT NULL, html BLOB NOT NULL, pdf BLOB
) STRICT;
CREATE INDEX issued_runner ON issued(runner_id, issued_at);
`;
