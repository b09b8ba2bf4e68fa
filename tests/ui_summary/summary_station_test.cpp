// SPDX-License-Identifier: GPL-3.0-or-later
// The Summary station: who it is for, what goes into it, and files that are whole or not there.
#include "ui/summary/summary_station.h"

#include <gmock/gmock.h>

#include <QtCore/QEventLoop>
#include <QtCore/QFile>
#include <QtCore/QTimer>
#include <QtWidgets/QLabel>
#include <QtWidgets/QListWidget>

#include "core/exchange/csv.h"
#include "tests/support/desk.h"
#include "tests/support/keys.h"
#include "tests/support/wait.h"
#include "ui/kit/messages.h"
#include "ui/kit/pages_view.h"
#include "ui/summary/numbered.h"
#include "ui/summary/summary_files.h"

namespace prillbook::ui {
namespace {

using testing::HasSubstr;
using testing_support::Desk;
using testing_support::press;

struct Summaries : testing::Test, Desk {
  SampleId tested = sample;
  SampleId untested;

  Summaries() {
    const auto panned = pan("1 kg");
    weigh(panned.bead, "22 mg"), fineness(panned.bead, "750");
    untested = another("Old dump");
  }
  // Runs the window until the file is written or refused.
  static bool written(SummaryStation& station, FileKind kind) {
    QEventLoop loop;
    bool done = false, result = false;
    QObject::connect(&station, &SummaryStation::finished, &loop, [&](bool ok) {
      done = true, result = ok;
      loop.quit();
    });
    station.write(kind);
    QTimer::singleShot(20'000, &loop, &QEventLoop::quit);
    if (!done) loop.exec();
    EXPECT_TRUE(done);
    return result;
  }
  static QByteArray bytes(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
  }
};

TEST_F(Summaries, SamplesWithResultsAreChosenAtFirst) {
  SummaryStation station(session);
  station.enter();
  EXPECT_EQ(station.in_hand(), client);
  EXPECT_EQ(station.chosen(), std::vector<SampleId>{tested});
  EXPECT_EQ(SummaryStation::place(session).waiting(), 1);
  auto* list = station.findChild<QListWidget*>();
  list->setCurrentRow(1);
  press(list, Qt::Key_Space, Qt::NoModifier, " ");
  EXPECT_EQ(station.chosen(), (std::vector<SampleId>{tested, untested}));
  station.take_sample(untested);
  EXPECT_EQ(station.chosen(), std::vector<SampleId>{untested});
}

TEST_F(Summaries, ADraftBegunAtOnceIsOfTheSamplesThatAreTicked) {
  SummaryStation station(session);
  station.enter();
  station.numbered().begin_draft();
  ASSERT_EQ(issue::summaries(*connection).value().size(), 1u);
  EXPECT_EQ(issue::summaries(*connection).value().front().samples, std::vector<SampleId>{tested});
  station.take_sample(untested);
  station.numbered().put_samples_in();
  EXPECT_EQ(issue::summaries(*connection).value().front().samples, std::vector<SampleId>{untested});
}

TEST_F(Summaries, AConsignmentIsChosenWhole) {
  SummaryStation station(session);
  station.enter();
  const auto all = results::consignments_of(*connection, client).value();
  ASSERT_FALSE(all.empty());
  station.choose_consignment(all.front().consignment);
  EXPECT_EQ(station.chosen(), (std::vector<SampleId>{tested, untested}));
  station.choose_consignment({});
  EXPECT_EQ(station.chosen(), std::vector<SampleId>{tested});
}

TEST_F(Summaries, EveryKindOfFileIsWritten) {
  SummaryStation station(session);
  station.enter();
  prompter.path = folder.filePath("out");
  ASSERT_TRUE(written(station, FileKind::pdf));
  EXPECT_TRUE(bytes(folder.filePath("out.pdf")).startsWith("%PDF"));
  ASSERT_TRUE(written(station, FileKind::spreadsheet));
  EXPECT_TRUE(bytes(folder.filePath("out.xlsx")).startsWith("PK"));
  ASSERT_TRUE(written(station, FileKind::list));
  const std::string list = bytes(folder.filePath("out.csv")).toStdString();
  EXPECT_THAT(list, HasSubstr("26-0001"));
  EXPECT_THAT(list, HasSubstr("16.5"));
  ASSERT_FALSE(prompter.wishes.empty());
  EXPECT_THAT(prompter.wishes.front().suggested.toStdString(), HasSubstr("Larch Adit Syndicate"));
}

TEST_F(Summaries, AFolderThatIsNotThereIsSaidAndTheOldFileStays) {
  SummaryStation station(session);
  station.enter();
  prompter.path = folder.filePath("none/out.pdf");
  EXPECT_FALSE(written(station, FileKind::pdf));
  EXPECT_THAT(station.findChild<MessageBar*>()->words().toStdString(), HasSubstr("no folder"));
  EXPECT_FALSE(station.writing());
  prompter.path = folder.filePath("keep.csv");
  QFile keep(prompter.path);
  ASSERT_TRUE(keep.open(QIODevice::WriteOnly));
  keep.write("older");
  keep.close();
  ASSERT_TRUE(QFile::exists(prompter.path));
  ASSERT_TRUE(written(station, FileKind::list));  // a good folder replaces it whole
  EXPECT_THAT(bytes(prompter.path).toStdString(), HasSubstr("26-0001"));
}

TEST_F(Summaries, AStoppedFileIsNotThereAndTheOldOneStays) {
  SummaryStation station(session);
  station.enter();
  prompter.path = folder.filePath("keep.pdf");
  QFile keep(prompter.path);
  ASSERT_TRUE(keep.open(QIODevice::WriteOnly));
  keep.write("older");
  keep.close();
  int ended = 0;
  QObject::connect(&station, &SummaryStation::finished, [&](bool ok) { ended += ok ? 100 : 1; });
  station.write(FileKind::pdf);
  ASSERT_TRUE(station.writing()) << "the window goes on";
  station.stop_writing();
  ASSERT_TRUE(testing_support::wait_until([&] { return ended > 0; }));
  EXPECT_EQ(ended, 1);
  EXPECT_THAT(station.findChild<MessageBar*>()->words().toStdString(), HasSubstr("Stopped"));
  EXPECT_EQ(bytes(prompter.path), "older");
}

TEST_F(Summaries, AbandonedDialogWritesNothing) {
  SummaryStation station(session);
  station.enter();
  station.write(FileKind::pdf);  // the script has no path
  EXPECT_FALSE(station.writing());
  EXPECT_EQ(prompter.wishes.size(), 1u);
}

TEST(FileName, HoldsNothingAFileSystemRefuses) {
  EXPECT_EQ(file_name("A/B: \"Gold\" <Co>\n", "4 May 2026", ".pdf"), "A B Gold Co 4 May 2026.pdf");
  EXPECT_EQ(file_name("../..", "4 May 2026", ".pdf"), "Summary 4 May 2026.pdf");
}

TEST_F(Summaries, ThePreviewShowsPages) {
  SummaryStation station(session);
  station.resize(1000, 640);
  station.show();
  station.enter();
  EXPECT_TRUE(testing_support::wait_until([&] { return station.findChild<PagesView*>()->count() >= 1; }));
}

}  // namespace
}  // namespace prillbook::ui
