// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <QtCore/QFileInfo>
#include <QtCore/QSettings>
#include <QtCore/QTemporaryDir>
#include <QtWidgets/QCheckBox>
#include <QtWidgets/QListWidget>

#include "core/fire/charge_record.h"
#include "core/results/sample_record.h"
#include "tests/support/files.h"
#include "tests/support/scripted_prompter.h"
#include "tests/support/window_hand.h"
#include "ui/kit/messages.h"
#include "ui/kit/pages_view.h"
#include "ui/paper/bench_sheets.h"
#include "ui/paper/tray_sheet.h"
#include "ui/printing/bench_page.h"
#include "ui/printing/labels_page.h"
#include "ui/printing/sheet_picture.h"
#include "ui/printing/tray_sheet_page.h"
#include "ui/receiving/consignment_form.h"
#include "ui/receiving/sample_form.h"
#include "ui/sheet/bead_form.h"
#include "ui/sheet/charge_form.h"
#include "ui/sheet/pan_form.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;
using labels::LabelKind;

struct PrintingPages : WithApplication, testing::Test, LabWithSample<FileNotebook> {
  Desk desk{*connection, book};
  testing_support::ScriptedPrompter answers;
  ui::Session session{*connection, book, desk.notifier, answers, desk.drafts, {}};
  QStringList known{"upstairs"};
  std::vector<std::pair<QString, std::size_t>> printed;
  Result<void> outcome;

  PrintingPages() { QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, desk.folder.path()); }
  Printing printing() {
    return {[this] { return known; },
            [this](const paper::Pages& pages, const QString& printer) {
              printed.emplace_back(printer, pages.sheets.size());
              return outcome;
            }};
  }
  // The pages are laid out a little after the choice.
  static void expect_preview(const PrintPage& page, int count) {
    EXPECT_TRUE(QTest::qWaitFor([&] { return page.preview()->count() == count; }, 10'000)) << page.preview()->count();
  }
};

struct LabelsOnPaper : PrintingPages {
  LabelsPage page{session, printing()};

  void SetUp() override {
    ASSERT_TRUE(cut("1 kg", "pan").ok());
    const PortionId fired = cut("30 g", "fire").value();
    ASSERT_TRUE(fire::start_charge(book, {fired, {}, person, {}, {}, {}}).ok());
    log_sample("Larch adit S", "2 kg");
    show(page, 1090, 720);
    ASSERT_TRUE(page.show_labels_of({history::Entity::sample, sample.value}));
    page.enter();
  }
};

TEST_F(LabelsOnPaper, ASampleGivesItsBagAndItsPortions) {
  ASSERT_EQ(page.chosen().size(), 3u);
  EXPECT_EQ(page.chosen()[0].code, "PB1:S:26-0001");
  EXPECT_EQ(page.box(LabelKind::bag)->text(), "bags (1)");
  EXPECT_EQ(page.box(LabelKind::portion)->text(), "portions (2)");
  EXPECT_FALSE(page.box(LabelKind::reject)->isVisible()) << "there is none";
}

TEST_F(LabelsOnPaper, AConsignmentGivesItsBagsAndAPortionItself) {
  ASSERT_TRUE(page.show_labels_of({history::Entity::consignment, consignment.value}));
  EXPECT_EQ(page.chosen().size(), 2u);
  ASSERT_TRUE(page.show_labels_of({history::Entity::portion, 2}));
  ASSERT_EQ(page.chosen().size(), 1u);
  EXPECT_EQ(page.chosen()[0].number, "26-0001/2");
  EXPECT_FALSE(page.show_labels_of({history::Entity::client, client.value}));
  EXPECT_FALSE(page.show_labels_of({history::Entity::sample, 99}));
}

TEST_F(LabelsOnPaper, TheKeyboardChooses) {
  EXPECT_EQ(focused(), "bags (1)");
  press(Qt::Key_Space);
  EXPECT_EQ(page.chosen().size(), 2u);
  page.sheet()->setFocus();
  const int columns = page.layout_in_hand().columns;
  press(Qt::Key_Right);
  press(Qt::Key_Down);
  EXPECT_EQ(page.sheet()->start(), 2 + columns);
  press(Qt::Key_End);
  EXPECT_EQ(page.sheet()->start(), page.layout_in_hand().count());
  press(Qt::Key_Right);
  EXPECT_EQ(page.sheet()->start(), page.layout_in_hand().count()) << "a sheet ends";
  expect_preview(page, 2);
}

TEST_F(LabelsOnPaper, AClickSetsTheStart) {
  QTest::mouseClick(page.sheet(), Qt::LeftButton, Qt::NoModifier, page.sheet()->place_area(5).center().toPoint());
  EXPECT_EQ(page.sheet()->start(), 5);
}

TEST_F(LabelsOnPaper, TheSheetChosenIsRemembered) {
  auto* layouts = page.findChild<QListWidget*>();
  layouts->setCurrentRow(3);
  const std::string name = page.layout_in_hand().name;
  EXPECT_EQ(LabelsPage(session, printing()).layout_in_hand().name, name);
}

TEST_F(LabelsOnPaper, IsWrittenAsPdf) {
  const std::string wished = folder.file("labels");
  answers.files.push_back(QString::fromStdString(wished));
  page.write_pdf();
  EXPECT_TRUE(testing_support::file_text(wished + ".pdf").starts_with("%PDF"));
  ASSERT_EQ(answers.wished.size(), 1u);
  EXPECT_EQ(answers.wished[0].suggested, "Labels 26-0001.pdf");
  answers.files.push_back(QString::fromStdString(folder.file("no/such/folder.pdf")));
  page.write_pdf();
  EXPECT_THAT(page.news()->words().toStdString(), testing::HasSubstr("There is no folder"));
}

TEST_F(LabelsOnPaper, GoesToThePrinter) {
  page.print();
  ASSERT_EQ(printed.size(), 1u);
  EXPECT_EQ(printed[0].first, "upstairs");
  EXPECT_EQ(printed[0].second, 1u);
}

TEST_F(LabelsOnPaper, APrinterThatIsNotThereIsSaid) {
  known.clear();
  outcome = Error{ErrorCode::not_found, "printer", "none", {}};
  page.print();
  EXPECT_THAT(page.news()->words().toStdString(), testing::HasSubstr("No printer is set up"));
  known = {"cellar"};
  outcome = Error{ErrorCode::read_only, "printer", "off", {"cellar"}};
  page.print();
  EXPECT_THAT(page.news()->words().toStdString(), testing::HasSubstr("cellar does not take the pages"));
}

TEST_F(LabelsOnPaper, NothingChosenIsSaid) {
  for (const LabelKind kind : {LabelKind::bag, LabelKind::portion, LabelKind::charge, LabelKind::lead_waste})
    page.box(kind)->setChecked(false);
  EXPECT_TRUE(QTest::qWaitFor([&] { return !button(page, "Write as PDF…")->isEnabled(); }, 10'000));
  EXPECT_EQ(page.preview()->count(), 0);
  EXPECT_THAT(page.news()->words().toStdString(), testing::HasSubstr("Choose"));
}

paper::TraySheet tray_of(std::int64_t rows, std::int64_t columns, std::int64_t taken) {
  paper::TraySheet sheet{"cupels of Monday", "second firing", "4 May 2026", trays::Kind::cupel, {rows, columns}, {}};
  for (std::int64_t i = 1; i <= taken; ++i)
    sheet.places.push_back(
        {i, "26-" + std::to_string(1000 + i) + "/2", "Larch adit, a long way in and up the second raise", "30 g"});
  return sheet;
}

// One page whatever the tray, white all round, and nothing of it lost: the last line stands above the rim.
TEST(TraySheetOnPaper, IsOnePageWithAWhiteRim) {
  testing_support::need_application();
  for (const auto& [rows, columns, taken] : std::initializer_list<std::array<std::int64_t, 3>>{
           {1, 12, 0}, {1, 12, 12}, {4, 6, 24}, {1, 60, 33}, {10, 10, 100}, {100, 100, 180}})
    for (const auto size : {paper::PaperSize::a4, paper::PaperSize::letter}) {
      const auto pages = paper::tray_pages(tray_of(rows, columns, taken), size);
      ASSERT_EQ(pages.sheets.size(), 1u);
      const QImage image = paper::page_images(pages, 60).front();
      const int rim = 60 * 8 / 25;  // 8 mm
      int inked = 0;
      for (int x = 0; x < image.width(); ++x)
        for (int y = 0; y < image.height(); ++y) {
          const bool white = image.pixel(x, y) == qRgb(255, 255, 255);
          const bool at_rim = x < rim || y < rim || x >= image.width() - rim || y >= image.height() - rim;
          if (at_rim) ASSERT_TRUE(white) << rows << " by " << columns << " at " << x << ',' << y;
          inked += white ? 0 : 1;
        }
      EXPECT_GT(inked, 1000);
    }
}

TEST_F(PrintingPages, ATraySheetIsThatOfTheNotebook) {
  const auto charge = fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}});
  const TrayId tray = *trays::lay_out(book, {"cupels", trays::Kind::cupel, {}});
  ASSERT_TRUE(trays::place(book, tray, 3, {charge->charge, {}, {}}).ok());
  TraySheetPage page(session);
  EXPECT_FALSE(page.show_tray(TrayId{99}));
  ASSERT_TRUE(page.show_tray(tray));
  const QTemporaryDir folder;
  answers.files = {folder.filePath(QStringLiteral("tray"))};
  page.write_pdf();
  EXPECT_GT(QFileInfo(folder.filePath(QStringLiteral("tray.pdf"))).size(), 1000);
}

struct BenchSheetsOnPaper : PrintingPages {
  // Labels of the fields of a form, in the order in which Tab meets them.
  static std::vector<std::string> labels_of(QWidget& form) {
    std::vector<std::string> list;
    for (Field* one : form.findChildren<Field*>()) list.push_back(one->label().toStdString());
    return list;
  }
  static const paper::BenchSheet& sheet(std::string_view name) {
    for (const paper::BenchSheet& one : paper::bench_sheets())
      if (one.name == name) return one;
    ADD_FAILURE() << name;
    return paper::bench_sheets().front();
  }
  // Every column that is said to be of the form is there, and they stand in its order.
  static void expect_of(std::span<const paper::BenchColumn> columns, const std::vector<std::string>& form) {
    auto from = form.begin();
    int compared = 0;
    for (const paper::BenchColumn& column : columns) {
      if (!column.of_form) continue;
      const auto found = std::find(from, form.end(), column.label);
      EXPECT_NE(found, form.end()) << column.label
                                   << (std::find(form.begin(), form.end(), column.label) == form.end()
                                           ? " is no field of the form"
                                           : " stands elsewhere in the form");
      if (found != form.end()) from = found + 1;
      ++compared;
    }
    EXPECT_GT(compared, 1);
  }
};

TEST_F(BenchSheetsOnPaper, ReceivingAsksWhatItsFormsAsk) {
  ConsignmentForm consignment_form(session);
  SampleForm sample_form(session);
  expect_of(sheet("receiving-list").head, labels_of(consignment_form));
  expect_of(sheet("receiving-list").columns, labels_of(sample_form));
}

TEST_F(BenchSheetsOnPaper, TheBenchAsksWhatItsFormsAsk) {
  PanForm pan(session);
  ChargeForm charge(session);
  expect_of(sheet("pan-test").columns, labels_of(pan));
  expect_of(sheet("charge").columns, labels_of(charge));
}

TEST_F(BenchSheetsOnPaper, BeadsAskWhatTheirFormAsks) {
  const PortionId fired = cut("30 g", "fire").value();
  ASSERT_TRUE(fire::start_charge(book, {fired, {}, person, {}, {}, {}}).ok());
  const auto record = results::load_sample_record(*connection, sample).value();
  BeadForm form(session);
  form.show_bead(record, record.charges[0].bead, fired);
  expect_of(sheet("bead-weighings").columns, labels_of(form));
}

TEST_F(BenchSheetsOnPaper, EachSheetIsOnePageOfBothPapers) {
  for (const auto size : {paper::PaperSize::a4, paper::PaperSize::letter}) {
    const auto pages = paper::bench_pages({}, size);
    ASSERT_TRUE(pages.ok());
    EXPECT_EQ(pages->sheets.size(), paper::bench_sheets().size());
    EXPECT_GT(pages->page().width(), pages->page().height());
    for (QImage image : paper::page_images(*pages, 60)) {
      // White all round: no printer reaches the edge.
      const int rim = 60 * 8 / 25;  // 8 mm
      for (int x = 0; x < image.width(); ++x)
        for (int y = 0; y < image.height(); ++y)
          if (x < rim || y < rim || x >= image.width() - rim || y >= image.height() - rim) {
            ASSERT_EQ(image.pixel(x, y), qRgb(255, 255, 255)) << x << ',' << y;
          }
    }
  }
  const auto wrong = paper::bench_pages({"tea"}, paper::PaperSize::a4);
  ASSERT_FALSE(wrong.ok());
  EXPECT_EQ(wrong.error().code, ErrorCode::not_found);
  EXPECT_THAT(wrong.error().detail, testing::HasSubstr("pan-test"));
}

TEST_F(BenchSheetsOnPaper, ThePageChoosesAmongThem) {
  BenchSheetsPage page(session, printing());
  show(page, 1090, 720);
  expect_preview(page, 6);
  page.enter();
  press(Qt::Key_Space);
  expect_preview(page, 5);
  page.print();
  EXPECT_EQ(printed.back().second, 5u);
}

}  // namespace
}  // namespace prillbook::ui
