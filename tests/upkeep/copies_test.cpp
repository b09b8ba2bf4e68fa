// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/copies.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>

#include "core/history/fields.h"
#include "core/upkeep/check.h"
#include "core/upkeep/conflict.h"
#include "core/upkeep/difference.h"
#include "core/upkeep/restore.h"
#include "core/upkeep/sealed.h"
#include "tests/support/files.h"
#include "tests/support/notebook.h"

namespace prillbook::upkeep {
namespace {

namespace fs = std::filesystem;
namespace fields = history::fields;
using history::ChangeSet;
using history::Entity;
using std::chrono::days;
using std::chrono::hours;
using testing_support::FileNotebook;

CopyTime at(std::string_view text) { return parse_copy_time(text).value(); }

// What is left where a copy is made at each of `times` and the old ones are thinned out every time.
std::vector<CopyTime> left_over(const std::vector<CopyTime>& times) {
  std::vector<CopyTime> held;
  for (const CopyTime time : times) {
    held.push_back(time);
    const auto kept = kept_copies(held);
    std::vector<CopyTime> rest;
    for (std::size_t i = 0; i < held.size(); ++i)
      if (kept[i]) rest.push_back(held[i]);
    held = rest;
  }
  return held;
}

TEST(CopyRuleTest, NameOfATime) {
  EXPECT_EQ(to_text(copy_time(*parse_iso("2026-05-04T09:30:15.999+02:00"))), "2026-05-04-093015");
  EXPECT_EQ(at("2026-05-04-093015"), copy_time(*parse_iso("2026-05-04T09:30:15.000-07:00")));
  for (const char* none : {"", "2026-05-04", "2026-02-30-093015", "2026-05-04-243015", "2026-05-04-09301x", "2026-05-04-+93015"})
    EXPECT_FALSE(parse_copy_time(none)) << none;
}

TEST(CopyRuleTest, TwoYearsOfThreeCopiesADay) {
  std::vector<CopyTime> times;
  const CopyTime first = at("2024-05-06-080000");
  for (int day = 0; day < 731; ++day)
    for (const int hour : {0, 4, 9}) times.push_back(first + days(day) + hours(hour));
  const auto held = left_over(times);
  const CopyTime newest = times.back();
  const auto age = [&](CopyTime time) { return (newest - time) / hours(1); };
  std::vector<long> ages;
  for (auto copy = held.rbegin(); copy != held.rend(); ++copy) ages.push_back(age(*copy));
  // Wednesday 2026-05-06: three of the day, the last of each of seven days, of five weeks (Sunday nights; the newest
  // stands for its own), of twelve months (as far as no day or week stands for them).
  EXPECT_THAT(std::vector<long>(ages.begin(), ages.begin() + 9), testing::ElementsAre(0, 5, 9, 24, 48, 72, 96, 120, 144));
  EXPECT_LE(held.size(), 6u + 7u + 5u + 12u);
  for (const int back : {7, 14, 21, 27})
    EXPECT_TRUE(std::any_of(ages.begin(), ages.end(), [&](long hour) {
      return hour > back * 24 - 168 && hour <= back * 24 + 24;
    })) << back;
  std::set<std::string> months;
  for (const CopyTime copy : held) months.insert(to_text(copy).substr(0, 7));
  EXPECT_EQ(months.size(), 12u);
  EXPECT_TRUE(months.contains("2025-06"));
}

TEST(CopyRuleTest, ALabThatWasShutLosesNoOldCopies) {
  const auto held =
      left_over({at("2026-01-12-170000"), at("2026-01-13-170000"), at("2026-01-14-170000"), at("2026-03-02-080000")});
  EXPECT_EQ(held.size(), 4u);
}

RC_GTEST_PROP(CopyRuleTest, TheNewestStaysAndThinningOutTwiceIsThinningOutOnce, ()) {
  const auto minutes = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 2'000'000));
  std::vector<CopyTime> taken;
  for (const int minute : minutes) taken.push_back(at("2024-02-28-000000") + std::chrono::minutes(minute));
  const auto kept = kept_copies(taken);
  std::vector<CopyTime> rest;
  for (std::size_t i = 0; i < taken.size(); ++i)
    if (kept[i]) rest.push_back(taken[i]);
  RC_ASSERT(taken.empty() || std::count(rest.begin(), rest.end(), *std::max_element(taken.begin(), taken.end())) > 0);
  const auto again = kept_copies(rest);
  RC_ASSERT(std::count(again.begin(), again.end(), false) == 0);
  RC_ASSERT(rest.size() <= 6 + 7 + 5 + 12);
}

class CopiesTest : public testing::Test {
 protected:
  FileNotebook notebook;
  std::string place = usual_copy_place(notebook.path);
  std::string stick = notebook.folder.file("stick");

  CopiesTest() { add_client("Larch Adit Syndicate"); }
  RecordId add_client(const std::string& name) {
    return notebook.journal
        ->record_for<RecordId>("add client",
                               [&](ChangeSet& set) {
                                 return set.make(Entity::client, {{fields::client::name, name}});
                               })
        .value();
  }
  TakenCopy take(const char* when, const CopyPlaces& places = {}) {
    const auto taken = take_copy(notebook.path, places, *parse_iso(when));
    EXPECT_TRUE(taken.ok()) << taken.error().detail;
    return taken.value_or({});
  }
  static std::vector<std::string> names(const std::string& folder) {
    std::vector<std::string> found;
    for (const auto& entry : fs::directory_iterator(folder)) found.push_back(entry.path().filename().string());
    std::sort(found.begin(), found.end());
    return found;
  }
  void close() {
    notebook.journal.reset();
    notebook.connection.reset();
  }
};

TEST_F(CopiesTest, CopyLiesInAFolderBesideAndIsSound) {
  EXPECT_TRUE(copy_is_due(notebook.path, {}, *parse_iso("2026-05-04T10:00+02:00")));
  const TakenCopy taken = take("2026-05-04T10:00+02:00");
  EXPECT_EQ(taken.path, (fs::path(place) / "lab.copy-2026-05-04-100000.prillbook").string());
  EXPECT_EQ(check_notebook(*taken.path)->head, notebook.journal->head());
  EXPECT_THAT(names(place), testing::ElementsAre("lab.copy-2026-05-04-100000.prillbook"));
  EXPECT_FALSE(copy_is_due(notebook.path, {}, *parse_iso("2026-05-04T23:00+02:00")));
  EXPECT_TRUE(copy_is_due(notebook.path, {}, *parse_iso("2026-05-05T00:01+02:00")));
}

TEST_F(CopiesTest, NothingNewNeedsNoCopy) {
  take("2026-05-04T10:00+02:00");
  EXPECT_FALSE(take("2026-05-05T10:00+02:00").path);
  add_client("Second");
  EXPECT_TRUE(take("2026-05-05T11:00+02:00").path);
}

TEST_F(CopiesTest, OldOnesAreThinnedOutButNeverThoseOfAnotherNotebook) {
  take("2026-05-01T09:00+02:00");
  for (int hour = 10; hour < 18; ++hour) {
    add_client(fmt::format("Client {}", hour));
    take(fmt::format("2026-05-04T{:02}:00+02:00", hour).c_str());
  }
  const auto before = names(place);
  EXPECT_EQ(before.size(), 7u) << "six of the day, one of the day before";
  // Another notebook of the same name put its copies there.
  FileNotebook other;
  ASSERT_TRUE(other.journal
                  ->record("add client",
                           [&](ChangeSet& set) -> Result<void> {
                             PRILLBOOK_TRY(set.make(Entity::client, {{fields::client::name, "Somebody else"}}));
                             return {};
                           })
                  .ok());
  ASSERT_TRUE(take_copy(other.path, {place, ""}, *parse_iso("2026-05-04T07:00+02:00")).ok());
  std::ofstream(fs::path(place) / "lab.copy-2026-05-04-060000.prillbook") << "no notebook at all";
  add_client("One more");
  EXPECT_EQ(take("2026-05-04T18:00+02:00").thinned_out, 1u);
  const auto after = names(place);
  EXPECT_THAT(after, testing::Contains("lab.copy-2026-05-04-060000.prillbook"));
  EXPECT_THAT(after, testing::Contains("lab.copy-2026-05-04-070000.prillbook"));
  EXPECT_EQ(after.size(), before.size() + 2);
}

TEST_F(CopiesTest, SecondPlaceThatIsNotThereBlocksNothing) {
  const TakenCopy without = take("2026-05-04T10:00+02:00", {"", stick});
  EXPECT_TRUE(without.path);
  ASSERT_TRUE(without.second_fault);
  EXPECT_EQ(without.second_fault->code, ErrorCode::not_found);
  EXPECT_FALSE(fs::exists(stick)) << "a stick that is not plugged in is no folder to be made";
  fs::create_directory(stick);
  const TakenCopy with = take("2026-05-04T10:05+02:00", {"", stick});
  EXPECT_FALSE(with.path) << "the first place has it already";
  EXPECT_FALSE(with.second_fault);
  EXPECT_THAT(names(stick), testing::ElementsAre("lab.copy-2026-05-04-100500.prillbook"));
}

TEST_F(CopiesTest, DamagedNotebookReplacesNoCopy) {
  take("2026-05-04T10:00+02:00");
  const auto before = names(place);
  ASSERT_TRUE(notebook.connection->run_derived("UPDATE client SET name = 'Another'", {}).ok());
  add_client("Second");
  const auto taken = take_copy(notebook.path, {}, *parse_iso("2026-05-05T10:00+02:00"));
  ASSERT_FALSE(taken.ok());
  EXPECT_EQ(taken.error().code, ErrorCode::damaged);
  EXPECT_EQ(names(place), before);
}

TEST_F(CopiesTest, ListTellsWhatKindEachIs) {
  fs::create_directory(stick);
  take("2026-05-04T10:00+02:00", {"", stick});
  fs::copy_file(notebook.path, notebook.folder.file("lab.before-v9.prillbook"));
  fs::copy_file(notebook.path, notebook.folder.file("lab.replaced-2026-05-01-120000.prillbook"));
  fs::copy_file(notebook.path, notebook.folder.file("labour.copy-2026-05-01-120000.prillbook"));
  fs::copy_file(notebook.path, notebook.folder.file("lab.copy-yesterday.prillbook"));
  ASSERT_TRUE(seal(notebook.path, (fs::path(stick) / "for the archive").string(), "correct horse").ok());
  const auto all = all_copies(notebook.path, {"", stick});
  std::vector<CopyKind> kinds;
  for (const Copy& copy : all) kinds.push_back(copy.kind);
  EXPECT_THAT(kinds, testing::ElementsAre(CopyKind::taken, CopyKind::taken, CopyKind::sealed, CopyKind::replaced,
                                          CopyKind::before_migration));
  EXPECT_GT(all.front().bytes, 4096);
}

TEST_F(CopiesTest, DifferenceTellsWhatWouldBeLost) {
  const std::string copy = *take("2026-05-04T10:00+02:00").path;
  add_client("Second");
  notebook.journal->set_author("JK");
  const RecordId third = add_client("Third");
  ASSERT_TRUE(
      notebook.journal->record("rename", [&](ChangeSet& set) { return set.set(fields::client::name, third, "3rd"); }).ok());
  const auto held = store::Connection::open(copy, store::Access::read_only).value();
  const auto found = difference(*notebook.connection, *held);
  ASSERT_TRUE(found.ok()) << found.error().detail;
  EXPECT_EQ(found->shared_entries, 1);
  EXPECT_TRUE(found->related());
  EXPECT_EQ(found->only_in_copy.entries, 0);
  EXPECT_EQ(found->only_here.entries, 3);
  EXPECT_EQ(found->only_here.gestures, 3);
  EXPECT_THAT(found->only_here.gestures_by_person, testing::ElementsAre(testing::Pair("JK", 2), testing::Pair("HM", 1)));
  EXPECT_THAT(found->only_here.made, testing::ElementsAre(testing::Pair(Entity::client, 2)));
  ASSERT_EQ(found->only_here.newest.size(), 3u);
  EXPECT_EQ(found->only_here.newest.front().gesture, "rename");
  const auto holds = what_it_holds(*held);
  ASSERT_TRUE(holds.ok());
  EXPECT_EQ(holds->entries, 1);
  EXPECT_EQ(holds->last->who, "HM");
}

TEST_F(CopiesTest, CopyOfAnotherNotebookIsToldApart) {
  FileNotebook other;
  other.journal->set_author("XY");
  ASSERT_TRUE(other.journal
                  ->record("add client",
                           [&](ChangeSet& set) -> Result<void> {
                             PRILLBOOK_TRY(set.make(Entity::client, {{fields::client::name, "Somebody else"}}));
                             return {};
                           })
                  .ok());
  EXPECT_FALSE(difference(*notebook.connection, *other.connection)->related());
}

TEST_F(CopiesTest, AnotherVersionBesideItIsFoundByWhatItHolds) {
  take("2026-05-04T10:00+02:00");
  const std::string other = notebook.folder.file("lab (weigh-room, 4 May).prillbook");
  fs::copy_file(notebook.path, other);
  fs::copy_file(notebook.path, notebook.folder.file("lab.replaced-2026-05-01-120000.prillbook"));
  std::ofstream(notebook.folder.file("lab notes.txt")) << "nothing of the kind";
  EXPECT_TRUE(conflict_copies(notebook.path).empty()) << "an older state of the same is no conflict";
  {
    const auto connection = store::Connection::open(other, store::Access::read_write).value();
    const auto journal = history::Journal::open(*connection, notebook.clock).value();
    ASSERT_TRUE(journal
                    ->record("add client",
                             [&](ChangeSet& set) -> Result<void> {
                               PRILLBOOK_TRY(set.make(Entity::client, {{fields::client::name, "Written elsewhere"}}));
                               return {};
                             })
                    .ok());
  }
  EXPECT_THAT(conflict_copies(notebook.path), testing::ElementsAre(ConflictCopy{other, 1}));
  FileNotebook unrelated;
  fs::copy_file(unrelated.path, notebook.folder.file("lab 2.prillbook"));
  EXPECT_EQ(conflict_copies(notebook.path).size(), 1u);
}

TEST_F(CopiesTest, RestoringKeepsWhatWasThere) {
  const std::string copy = *take("2026-05-04T10:00+02:00").path;
  const auto head_then = notebook.journal->head();
  add_client("Second");
  const auto head_now = notebook.journal->head();
  close();
  const auto kept = restore_copy(notebook.path, copy, *parse_iso("2026-05-06T08:00:09+02:00"));
  ASSERT_TRUE(kept.ok()) << kept.error().detail;
  EXPECT_EQ(*kept, notebook.folder.file("lab.replaced-2026-05-06-080009.prillbook"));
  EXPECT_EQ(check_notebook(notebook.path)->head, head_then);
  EXPECT_EQ(check_notebook(*kept)->head, head_now);
  EXPECT_TRUE(fs::exists(copy)) << "a copy is not used up";
  ASSERT_TRUE(restore_copy(notebook.path, *kept, *parse_iso("2026-05-06T08:01:00+02:00")).ok()) << "and back again";
  EXPECT_EQ(check_notebook(notebook.path)->head, head_now);
}

// One may write to such a folder but not open it: it can not be synced. Which of two files is the former notebook has to
// stay clear all the same.
TEST_F(CopiesTest, RestoringInAFolderThatCanNotBeReadKeepsWhatWasThere) {
  const std::string copy = *take("2026-05-04T10:00+02:00").path;
  add_client("Second");
  const auto head_now = notebook.journal->head();
  close();
  Result<std::string> kept = std::string();
  {
    const testing_support::ClosedToReaders closed(notebook.folder.path());
    kept = restore_copy(notebook.path, copy, *parse_iso("2026-05-06T08:00+02:00"));
  }
  ASSERT_TRUE(kept.ok()) << kept.error().detail;
  EXPECT_EQ(check_notebook(*kept)->head, head_now);
}

TEST_F(CopiesTest, DamagedNotebookIsReplacedAndItsJournalGoesWithIt) {
  const std::string copy = *take("2026-05-04T10:00+02:00").path;
  close();
  const std::string wreck(9000, 'x');
  testing_support::write_file(notebook.path, wreck);
  testing_support::write_file(notebook.path + "-journal", "left by an interrupted entry");
  const auto kept = restore_copy(notebook.path, copy, *parse_iso("2026-05-06T08:00+02:00"));
  ASSERT_TRUE(kept.ok()) << kept.error().detail;
  EXPECT_TRUE(check_notebook(notebook.path)->sound());
  EXPECT_TRUE(testing_support::file_text(*kept) == wreck);
  EXPECT_FALSE(fs::exists(notebook.path + "-journal"));
}

TEST_F(CopiesTest, DamagedCopyIsNotRestored) {
  const std::string copy = *take("2026-05-04T10:00+02:00").path;
  close();
  const std::string before = testing_support::file_text(notebook.path);
  std::string text = before;
  text[text.find("Larch Adit")] = 'M';
  testing_support::write_file(copy, text);
  EXPECT_EQ(restore_copy(notebook.path, copy, *parse_iso("2026-05-06T08:00+02:00")).error().code, ErrorCode::damaged);
  EXPECT_TRUE(testing_support::file_text(notebook.path) == before);
  EXPECT_THAT(names(notebook.folder.path().string()), testing::UnorderedElementsAre("lab.prillbook", "lab-copies"));
}

TEST_F(CopiesTest, SealedCopyIsOpenedBesideForALook) {
  const std::string sealed = notebook.folder.file("sealed");
  ASSERT_TRUE(seal(notebook.path, sealed, "correct horse").ok());
  EXPECT_EQ(open_sealed_copy(notebook.path, sealed, "wrong horse").error().code, ErrorCode::conflict);
  const auto opened = open_sealed_copy(notebook.path, sealed, "correct horse");
  ASSERT_TRUE(opened.ok()) << opened.error().detail;
  EXPECT_EQ(check_notebook(*opened)->head, notebook.journal->head());
}

}  // namespace
}  // namespace prillbook::upkeep
