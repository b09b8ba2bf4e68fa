// SPDX-License-Identifier: GPL-3.0-or-later
// Waiting list, thread, bench and the quiet lines.
#include <QtGui/QImage>
#include <QtGui/QPainter>
#include <QtWidgets/QLabel>
#include <QtWidgets/QToolButton>

#include "tests/support/keys.h"
#include "ui/kit/bench.h"
#include "ui/kit/messages.h"
#include "ui/kit/thread.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui {
namespace {

using testing_support::press;

// `count` invented rows, read in pages.
WaitingPage rows_up_to(const int& count) {
  return [&count](int from, int most) {
    std::vector<WaitingRow> rows;
    for (int i = from; i < std::min(count, from + most); ++i)
      rows.push_back({i + 1, QStringLiteral("26-%1").arg(i + 1), "adit", "dry", Urgency::usual});
    return rows;
  };
}

TEST(Waiting, ComesInPages) {
  int count = 120;
  WaitingModel model;
  model.read_from(rows_up_to(count));
  EXPECT_EQ(model.rowCount(), 50);
  while (model.canFetchMore({})) model.fetchMore({});
  EXPECT_EQ(model.rowCount(), 120);
  EXPECT_EQ(model.row_of(120), 119);
  EXPECT_EQ(model.row_of(121), -1);
}

TEST(Waiting, KeepsTheRowInHandWhenOthersGo) {
  int count = 5;
  WaitingList list("Waiting");
  list.read_from(rows_up_to(count));
  int taken = 0;
  QObject::connect(&list, &WaitingList::taken, [&] { ++taken; });
  list.take(3);
  EXPECT_EQ(taken, 0);
  press(&list, Qt::Key_Down);
  EXPECT_EQ(taken, 1);
  EXPECT_EQ(list.in_hand(), 4);
  count = 4;
  list.refresh();
  EXPECT_EQ(list.in_hand(), 4);
  count = 2;
  list.refresh();
  EXPECT_EQ(list.in_hand(), 0);
  EXPECT_EQ(taken, 1);
}

TEST(Waiting, SaysTheUrgencyInWords) {
  WaitingModel model;
  model.read_from([](int from, int) {
    return from == 0 ? std::vector<WaitingRow>{{1, "26-1", "adit", "torn", Urgency::now}} : std::vector<WaitingRow>{};
  });
  EXPECT_EQ(model.data(model.index(0), Qt::AccessibleTextRole).toString(), "26-1 adit, torn, now");
}

TEST(Threads, ShowEveryEntryAndTellItsActions) {
  Thread thread;
  const Instant when = *parse_iso("2026-05-04T08:12+02:00");
  thread.set_entries({{7, when, "Received", "HM", "", {{"moisture", {}}}, {}, {}},
                      {8, when, "Panned", "HM", "", {}, std::pair{Severity::caution, QString("short")}, {{"open", "Open"}}}});
  EXPECT_EQ(thread.count(), 2);
  std::int64_t entry = 0;
  QObject::connect(&thread, &Thread::action_wanted, [&](std::int64_t id, const QString&) { entry = id; });
  thread.findChild<QToolButton*>()->click();
  EXPECT_EQ(entry, 8);
  thread.set_entries({});
  EXPECT_EQ(thread.count(), 0);
}

TEST(Benches, FoldWhenNarrow) {
  auto* waiting = new QWidget;
  Bench bench(waiting, new QWidget);
  bench.resize(1200, 600);
  bench.show();
  EXPECT_FALSE(bench.folded());
  EXPECT_TRUE(bench.waiting_shown());
  bench.resize(Bench::fold_width - 1, 600);
  EXPECT_TRUE(bench.folded());
  EXPECT_FALSE(bench.waiting_shown());
  bench.findChild<QToolButton*>()->click();
  EXPECT_TRUE(bench.waiting_shown());
  bench.resize(1200, 600);
  EXPECT_TRUE(bench.waiting_shown());
}

TEST(QuietLines, MarkAndWordStandTogether) {
  FindingRow row(Severity::stop, "blank <failed>");
  EXPECT_EQ(row.accessibleName(), "Stop. blank <failed>");
  EXPECT_TRUE(row.findChild<QLabel*>()->text().contains("&lt;failed&gt;"));
  const auto mark = [](Severity severity) {
    QImage image(14, 14, QImage::Format_ARGB32);
    image.fill(Qt::transparent);
    QPainter painter(&image);
    draw_mark(painter, QRectF(0, 0, 14, 14), severity);
    painter.end();
    return image.convertToFormat(QImage::Format_Alpha8);  // the shape without its colour
  };
  EXPECT_NE(mark(Severity::note), mark(Severity::caution));
  EXPECT_NE(mark(Severity::caution), mark(Severity::stop));
}

TEST(QuietLines, CautionOpensItsPage) {
  CautionLine line("Lead fume.", "lead");
  QString page;
  QObject::connect(&line, &CautionLine::more_wanted, [&](const QString& wanted) { page = wanted; });
  line.findChild<QToolButton*>()->click();
  EXPECT_EQ(page, "lead");
}

}  // namespace
}  // namespace prillbook::ui
