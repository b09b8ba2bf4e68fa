// SPDX-License-Identifier: GPL-3.0-or-later
// Labels read back from the painted page by a decoder that is not ours (ZBar), and the words against their places.
#include "ui/paper/label_sheet.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <zbar.h>

#include <QtGui/QFontMetricsF>
#include <QtGui/QGuiApplication>
#include <array>
#include <set>

#include "tests/support/files.h"
#include "tests/support/notebook.h"
#include "ui/paper/code_picture.h"

namespace prillbook::paper {
namespace {

using labels::Label;
using labels::LabelKind;

void need_gui() {
  if (QGuiApplication::instance()) return;
  static int argc = 1;
  static std::array<char, 6> name{"paper"};
  static char* argv[] = {name.data(), nullptr};
  static auto* const instance = new QGuiApplication(argc, argv);  // never deleted: Qt's own statics go first
  (void)instance;
}

std::multiset<std::string> codes_in(const QImage& page) {
  QImage grey = page.convertToFormat(QImage::Format_Grayscale8);
  QByteArray bytes;
  for (int y = 0; y < grey.height(); ++y) bytes.append(reinterpret_cast<const char*>(grey.constScanLine(y)), grey.width());
  zbar::zbar_image_scanner_t* scanner = zbar::zbar_image_scanner_create();
  zbar::zbar_image_scanner_set_config(scanner, zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 0);
  zbar::zbar_image_scanner_set_config(scanner, zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_ENABLE, 1);
  zbar::zbar_image_t* image = zbar::zbar_image_create();
  zbar::zbar_image_set_format(image, zbar_fourcc('Y', '8', '0', '0'));
  zbar::zbar_image_set_size(image, unsigned(grey.width()), unsigned(grey.height()));
  zbar::zbar_image_set_data(image, bytes.constData(), unsigned(bytes.size()), nullptr);
  zbar::zbar_scan_image(scanner, image);
  std::multiset<std::string> found;
  for (const auto* symbol = zbar::zbar_image_first_symbol(image); symbol; symbol = zbar::zbar_symbol_next(symbol))
    found.emplace(zbar::zbar_symbol_get_data(symbol), zbar::zbar_symbol_get_data_length(symbol));
  zbar::zbar_image_destroy(image);
  zbar::zbar_image_scanner_destroy(scanner);
  return found;
}

Label label_of(int number, const std::string& mark = "Larch adit N") {
  Label label;
  label.kind = LabelKind::portion;
  label.number = fmt::format("26-{:04}/{}", number, number % 7 + 1);
  label.code = "PB1:P:" + label.number;
  label.mark = mark;
  label.client = "Larch Adit Syndicate";
  label.what = "pan";
  label.mass = "1.2 kg";
  label.date = "2026-05-04";
  label.lab = "Fernhill Assay";
  if (number % 3 == 0) label.hazards = {"lead", "mercury"};
  return label;
}

const std::vector<std::string> marks{"A",
                                     "Larch adit N",
                                     std::string(400, 'W'),
                                     "проба № 17 из северного штрека, левая стенка",
                                     "北坑 第十七号 試料",
                                     "عينة رقم ١٧ من النفق الشمالي",
                                     "two\nlines\tand a tab",
                                     "🪨 pebble"};

struct LabelSheet : testing::TestWithParam<std::string> {
  LabelSheet() { need_gui(); }
  labels::Layout layout = labels::layout_by_name(GetParam()).value();

  std::vector<Label> many() const {
    std::vector<Label> list;
    for (int i = 0; i < layout.count(); ++i) list.push_back(label_of(i + 1, marks[std::size_t(i) % marks.size()]));
    return list;
  }
  // A scanner is held to one label, so each is cut out of the page along its edge.
  void expect_read_back(const QImage& page, double dots_per_inch) const {
    const std::vector<Label> all = many();
    const double scale = dots_per_inch / 25.4;
    for (int place = 1; place <= layout.count(); ++place) {
      const auto mm = labels::place_on(layout, place);
      const QRect area = QRectF(mm.left * scale, mm.top * scale, mm.width * scale, mm.height * scale).toAlignedRect();
      EXPECT_EQ(codes_in(page.copy(area)), (std::multiset<std::string>{all[std::size_t(place) - 1].code})) << place;
    }
  }
};

TEST_P(LabelSheet, EveryCodeIsReadBackAtThreeHundredDots) {
  const auto pages = label_pages(many(), layout, 1);
  ASSERT_TRUE(pages.ok()) << pages.error().detail;
  ASSERT_EQ(pages->sheets.size(), 1u);
  expect_read_back(page_images(*pages, 300).front(), 300);
}

// A print that has faded to grey on grey.
TEST_P(LabelSheet, EveryCodeIsReadBackFromAGreyPrint) {
  QImage page = page_images(label_pages(many(), layout, 1).value(), 300).front().convertToFormat(QImage::Format_Grayscale8);
  for (int y = 0; y < page.height(); ++y)
    for (int x = 0; x < page.width(); ++x) page.scanLine(y)[x] = uchar(90 + page.scanLine(y)[x] * 100 / 255);
  expect_read_back(page, 300);
}

TEST_P(LabelSheet, NoWordLeavesItsLabel) {
  for (const Label& label : many()) {
    const QRectF area(0, 0, layout.width * 720 / 25.4, layout.height * 720 / 25.4);
    const LabelPlan plan = plan_label(label, area);
    ASSERT_FALSE(plan.lines.empty());
    EXPECT_EQ(plan.lines.front().text.toStdString(), label.number) << "the number is made smaller, not cut";
    double last = 0;
    for (const LabelLine& line : plan.lines) {
      EXPECT_TRUE(area.contains(line.area)) << label.number << " " << line.text.toStdString();
      EXPECT_LE(QFontMetricsF(line.font).horizontalAdvance(line.text), line.area.width() + 0.01) << line.text.toStdString();
      EXPECT_GE(line.area.top() + 0.01, last) << "lines overlap";
      EXPECT_FALSE(line.area.intersects(plan.code)) << "words in the margin of the code";
      last = line.area.bottom();
    }
    const bool warned = std::any_of(plan.lines.begin(), plan.lines.end(), [](const LabelLine& line) { return line.warns; });
    EXPECT_EQ(warned, !label.hazards.empty()) << "a hazard is never left out";
  }
}

// What the plan says, the page keeps: outside the labels there is no ink.
TEST_P(LabelSheet, NoInkStandsBetweenTheLabels) {
  QImage page = page_images(label_pages(many(), layout, 1).value(), 150).front();
  QPainter painter(&page);
  const double scale = 150 / 25.4;
  for (int place = 1; place <= layout.count(); ++place) {
    const auto mm = labels::place_on(layout, place);
    painter.fillRect(QRectF(mm.left * scale, mm.top * scale, mm.width * scale, mm.height * scale).toAlignedRect(), Qt::white);
  }
  painter.end();
  for (int y = 0; y < page.height(); ++y)
    for (int x = 0; x < page.width(); ++x) ASSERT_EQ(page.pixel(x, y), qRgb(255, 255, 255)) << x << ',' << y;
}

INSTANTIATE_TEST_SUITE_P(EachLayout, LabelSheet, testing::ValuesIn([] {
                           std::vector<std::string> names;
                           for (const labels::Layout& layout : labels::layouts()) names.push_back(layout.name);
                           return names;
                         }()),
                         [](const auto& one) {
                           std::string name = one.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(LabelPages, BeginAtThePlaceAndGoOnToTheNextSheet) {
  need_gui();
  const labels::Layout layout = labels::layout_by_name("a4-3x8").value();
  const std::vector<Label> list{label_of(1), label_of(2), label_of(3)};
  const auto pages = label_pages(list, layout, 23);
  ASSERT_TRUE(pages.ok());
  ASSERT_EQ(pages->sheets.size(), 2u);
  const auto images = page_images(*pages, 300);
  EXPECT_EQ(codes_in(images[0]), (std::multiset<std::string>{list[0].code, list[1].code}));
  EXPECT_EQ(codes_in(images[1]), (std::multiset<std::string>{list[2].code}));
  EXPECT_EQ(label_pages(list, layout, 25).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(label_pages({}, layout, 1).error().code, ErrorCode::missing_key);
}

TEST(LabelPages, ALabelWithoutACodeHasTheWholeWidth) {
  need_gui();
  Label waste;
  waste.kind = LabelKind::lead_waste;
  waste.mark = "spent cupels, slag, pots";
  waste.hazards = {"lead"};
  const LabelPlan plan = plan_label(waste, QRectF(0, 0, 2000, 1000));
  EXPECT_TRUE(plan.code.isNull());
  EXPECT_TRUE(std::any_of(plan.lines.begin(), plan.lines.end(), [](const LabelLine& line) { return line.text == "LEAD WASTE"; }));
}

// ISO/IEC 18004, table of capacities, from memory: a code of version 1 has 21 modules and holds at level M 20 characters
// of the set that our codes are written in.
TEST(CodePicture, AUsualCodeIsOfTheSmallestVersion) {
  EXPECT_EQ(code_picture("PB1:P:26-0003/2").value().side, 21);
  EXPECT_EQ(code_picture("PB1:S:ABCDEFGHIJKLMN").value().side, 21) << "20 characters";
  EXPECT_EQ(code_picture("PB1:S:ABCDEFGHIJKLMNO").value().side, 25) << "21 characters";
}

TEST(CodePicture, WhatCanNotBeACodeIsRefused) {
  EXPECT_EQ(code_picture("").error().code, ErrorCode::out_of_range);
  EXPECT_EQ(code_picture(std::string("a\0b", 3)).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(code_picture(std::string(8000, 'x')).error().code, ErrorCode::out_of_range);
}

TEST(PagesToFiles, APdfHasThePagesInTheirSize) {
  need_gui();
  const testing_support::TempFolder folder;
  const labels::Layout layout = labels::layout_by_name("letter-3x10").value();
  const auto pages = label_pages({label_of(1), label_of(2)}, layout, 30).value();
  const std::string path = folder.file("labels.pdf");
  ASSERT_TRUE(write_pdf(pages, path).ok());
  const std::string text = testing_support::file_text(path);
  EXPECT_TRUE(text.starts_with("%PDF"));
  // Letter in points: 612 by 792 (8 1/2 by 11 inches of 72 points).
  EXPECT_THAT(text, testing::HasSubstr("612"));
  EXPECT_THAT(text, testing::HasSubstr("792"));
  EXPECT_EQ(write_pdf(pages, folder.file("no/such/folder.pdf")).error().code, ErrorCode::not_found);
  EXPECT_EQ(write_pdf(Pages{}, path).error().code, ErrorCode::missing_key);
}

TEST(PagesToFiles, APrinterThatIsNotThereIsNamed) {
  need_gui();
  const auto pages = label_pages({label_of(1)}, labels::layouts().front(), 1).value();
  const auto printed = print(pages, "no such printer");
  ASSERT_FALSE(printed.ok());
  EXPECT_EQ(printed.error().code, ErrorCode::not_found);
  EXPECT_EQ(printed.error().field, "printer");
  EXPECT_EQ(printed.error().arguments.empty(), printers().isEmpty()) << "no printer at all is told apart from a wrong name";
}

}  // namespace
}  // namespace prillbook::paper
