#include "store/migrations.h"

namespace plankwright::store {
namespace {

// The texts. A document is a commission, or what commissions name and keep beside them (a shop of
// their own). Every version is kept: rows of it are added and never changed.
constexpr std::string_view kTexts = R"sql(
CREATE TABLE document (
  id   TEXT NOT NULL PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('commission', 'beside')),
  file TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE version (
  document_id TEXT NOT NULL REFERENCES document (id),
  number      INTEGER NOT NULL CHECK (number > 0),
  hash        TEXT NOT NULL CHECK (length(hash) = 64),
  text        TEXT NOT NULL,
  written_at  TEXT NOT NULL,
  why         TEXT NOT NULL,
  PRIMARY KEY (document_id, number)
) STRICT;

CREATE TRIGGER version_never_changes BEFORE UPDATE ON version
BEGIN SELECT RAISE(ABORT, 'a version is never changed'); END;

CREATE TRIGGER version_never_goes BEFORE DELETE ON version
BEGIN SELECT RAISE(ABORT, 'a version is never deleted'); END;
)sql";

// The steps that are ticked off. Books until now had none, which is what no row says.
constexpr std::string_view kTicks = R"sql(
CREATE TABLE tick (
  document_id TEXT NOT NULL REFERENCES document (id),
  step        INTEGER NOT NULL CHECK (step >= 0),
  ticked_at   TEXT NOT NULL,
  PRIMARY KEY (document_id, step)
) STRICT;
)sql";

constexpr Migration kMigrations[] = {{1, kTexts}, {2, kTicks}};

}  // namespace

std::span<const Migration> migrations() {
  return kMigrations;
}

}  // namespace plankwright::store
