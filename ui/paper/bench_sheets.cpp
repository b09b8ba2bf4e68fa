// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/bench_sheets.h"

#include <fmt/format.h>

#include <QtCore/QCoreApplication>
#include <QtGui/QFontMetricsF>
#include <algorithm>
#include <array>

#include "ui/paper/ruled_sheet.h"

namespace prillbook::paper {
namespace {

constexpr BenchColumn paper_only(const char* label, double share, const char* unit = "") { return {label, unit, share, false}; }

constexpr std::array receiving_head{BenchColumn{"Client", "", 3},          BenchColumn{"Carrier", "", 2},
                                    BenchColumn{"Pieces declared", "", 1}, BenchColumn{"Pieces found", "", 1},
                                    BenchColumn{"Arrived", "", 2},         BenchColumn{"Received by", "", 1},
                                    BenchColumn{"Remarks", "", 2}};
constexpr std::array receiving_columns{
    paper_only("Lab number", 1.4),         BenchColumn{"Client's mark", "", 2},    BenchColumn{"Place taken", "", 2},
    BenchColumn{"Kind", "", 1.2},          BenchColumn{"Expected class", "", 1.2}, BenchColumn{"Condition on receipt", "", 1.3},
    BenchColumn{"Mass declared", "kg", 1}, BenchColumn{"Mass received", "kg", 1},  BenchColumn{"Moisture, wet basis", "%", 1},
    BenchColumn{"Remarks", "", 2.4}};

constexpr std::array bench_day{paper_only("Date", 1), paper_only("By", 1), paper_only("Balance", 2),
                               paper_only("Remarks of the day", 4)};

constexpr std::array pan_columns{paper_only("Portion", 1.3),
                                 paper_only("Panned", 1, "time"),
                                 paper_only("Mass of the portion", 1, "g"),
                                 BenchColumn{"Grind, P80", "µm", 0.9},
                                 BenchColumn{"Free gold, weighed raw", "mg", 1.1},
                                 BenchColumn{"Colours counted", "", 1.8},
                                 BenchColumn{"Largest colour seen", "mm", 1},
                                 BenchColumn{"Black sand", "none little much", 1.1},
                                 BenchColumn{"Sulphides", "none little much", 1.1},
                                 BenchColumn{"Concentrate remainder", "g", 1.1},
                                 BenchColumn{"Tail", "g", 0.9},
                                 BenchColumn{"Remarks", "", 2}};

constexpr std::array charge_columns{paper_only("Pot", 0.6),
                                    paper_only("Portion", 1.3),
                                    paper_only("Mass of the portion", 1, "g"),
                                    BenchColumn{"Collector silver", "mg", 1},
                                    BenchColumn{"Silver of litharge and lead", "mg", 1.1},
                                    BenchColumn{"Lead button", "g", 0.9},
                                    BenchColumn{"Look of the slag", "", 1.6},
                                    BenchColumn{"Remarks", "", 1.8},
                                    BenchColumn{"Metal from the slag", "mg", 1},
                                    BenchColumn{"Metal from the cupel", "mg", 1},
                                    BenchColumn{"Spoiled, because", "", 1.5}};

constexpr std::array bead_columns{paper_only("Tray place", 0.7),
                                  paper_only("Portion", 1.3),
                                  paper_only("Pan or fire", 0.8),
                                  BenchColumn{"Bead", "mg", 1},
                                  paper_only("Weigh again", 1, "mg"),
                                  BenchColumn{"On the balance", "", 1.1},
                                  BenchColumn{"Look of the bead", "", 1.6},
                                  BenchColumn{"How the fineness was got", "", 1.5},
                                  BenchColumn{"Gold after parting", "mg", 1},
                                  paper_only("Weigh again", 1, "mg"),
                                  paper_only("Remarks", 1.6)};

constexpr std::array sieve_head{paper_only("Portion", 1.2), paper_only("Mass of the portion", 1.2, "g"),
                                paper_only("Series", 1),    paper_only("Wet or dry", 0.8),
                                paper_only("Minutes", 0.7), paper_only("Date", 0.9),
                                paper_only("By", 0.6),      paper_only("Balance", 1)};
constexpr std::array sieve_columns{paper_only("Opening", 1, "µm"), paper_only("Sieve", 1, "mesh or number"),
                                   paper_only("Empty", 1, "g"),    paper_only("With what it kept", 1.2, "g"),
                                   paper_only("Kept", 1, "g"),     paper_only("Wedged or torn", 1.2),
                                   paper_only("Remarks", 3)};

constexpr std::array cleaning_head{paper_only("Machine", 2), paper_only("From", 1, "date"), paper_only("To", 1, "date")};
constexpr std::array cleaning_columns{paper_only("When", 1.1),
                                      paper_only("Went through", 1.4, "sample"),
                                      paper_only("Expected class", 1.1),
                                      paper_only("Brush", 0.6, "tick"),
                                      paper_only("Air", 0.6, "tick"),
                                      paper_only("Wipe", 0.6, "tick"),
                                      paper_only("Barren flush", 0.9, "g"),
                                      paper_only("Flush kept", 0.9, "yes no"),
                                      paper_only("By", 0.6),
                                      paper_only("Remarks", 2.4)};

constexpr std::array<BenchSheet, 6> all_bench_sheets{{
    {"receiving-list", "Receiving list", "One sheet a consignment; one line a bag.", receiving_head, receiving_columns, 14},
    {"pan-test", "Pan tests", "One line a portion. Remainder and tail are weighed and kept: both belong to the balance.",
     bench_day, pan_columns, 15},
    {"charge", "Charges", "One line a crucible. A spoiled charge keeps its line and its reason.", bench_day, charge_columns, 15},
    {"bead-weighings", "Bead weighings", "One line a bead, in the order of the tray. No bead seen after a search: write “none”.",
     bench_day, bead_columns, 15},
    {"sieve-analysis", "Sieve analysis", "Coarse to fine; the pan last, then the sum.", sieve_head, sieve_columns, 16},
    {"cleaning-log", "Cleaning log", "One line each time something went through the machine.", cleaning_head, cleaning_columns,
     17},
}};

QString tr(const char* words) { return QCoreApplication::translate("BenchSheets", words); }

constexpr double bench_margin = 420, between_heads = 60;

class BenchPainter {
 public:
  BenchPainter(const BenchSheet& sheet, QSizeF page)
      : sheet_(sheet), area_(bench_margin, bench_margin, page.width() - 2 * bench_margin, page.height() - 2 * bench_margin) {}

  Sheet run() {
    double y = title();
    y = head(y);
    table(y + 140);
    return ruled_.take();
  }

 private:
  double title() {
    ruled_.put_text(tr(sheet_.title), Size::large, true, {area_.left(), area_.top(), area_.width() * 0.6, 220}, ink::text);
    ruled_.put_text(tr(sheet_.hint), Size::small, false, {area_.left(), area_.top() + 220, area_.width() * 0.8, 130}, ink::quiet);
    const QString leaf = tr("Sheet ______ of ______");
    const QFont small = ruled_.faces().face(Size::small);
    const double width = QFontMetricsF(small).horizontalAdvance(leaf) + 10;
    ruled_.put_text(leaf, Size::small, false, {area_.right() - width, area_.top() + 60, width, 130}, ink::quiet);
    ruled_.line(area_.left(), area_.top() + 370, area_.right(), area_.top() + 370, ink::text, 10);
    return area_.top() + 430;
  }

  // A label and the line to write on; the head wraps where its shares ask for more than one line.
  double head(double y) {
    constexpr double a_line = 12;  // shares that fit beside each other
    double shares = 0;
    for (const BenchColumn& one : sheet_.head) shares += one.share;
    const double unit = (area_.width() + between_heads) / std::max(1.0, std::min(a_line, shares));
    double x = area_.left();
    for (const BenchColumn& one : sheet_.head) {
      const double width = one.share * unit - between_heads;
      const QString label = *one.unit ? QStringLiteral("%1, %2").arg(tr(one.label), QString::fromUtf8(one.unit)) : tr(one.label);
      ruled_.put_text(label, Size::small, false, {x, y, width, 120}, ink::quiet);
      ruled_.line(x, y + 400, x + width, y + 400, ink::text, 6);
      x += width + between_heads;
    }
    return y + 400;
  }

  void table(double top) {
    double shares = 0;
    for (const BenchColumn& one : sheet_.columns) shares += one.share;
    const double unit = area_.width() / shares;
    double x = area_.left(), highest = 0;
    std::vector<double> edges{x};
    for (const BenchColumn& one : sheet_.columns) {
      const double width = one.share * unit;
      double height = ruled_.put_label(tr(one.label), x + 25, top, width - 50);
      if (*one.unit) {
        ruled_.put_text(QString::fromUtf8(one.unit), Size::small, false, {x + 25, top + height, width - 50, 120}, ink::quiet);
        height += line_height(Size::small);
      }
      highest = std::max(highest, height);
      x += width;
      edges.push_back(x);
    }
    const double first = top + highest + 40, row = (area_.bottom() - first) / sheet_.rows;
    for (int i = 0; i <= sheet_.rows; ++i)
      ruled_.line(area_.left(), first + i * row, area_.right(), first + i * row, i == 0 ? ink::text : ink::quiet, i == 0 ? 8 : 4);
    for (const double edge : edges) ruled_.line(edge, top - 20, edge, area_.bottom(), ink::rule, 4);
  }

  const BenchSheet& sheet_;
  QRectF area_;
  RuledSheet ruled_;
};

}  // namespace

std::span<const BenchSheet> bench_sheets() { return all_bench_sheets; }

Result<Pages> bench_pages(const std::vector<std::string>& names, PaperSize size) {
  std::string known;
  for (const BenchSheet& sheet : all_bench_sheets) known += fmt::format("{}{}", known.empty() ? "" : ", ", sheet.name);
  for (const std::string& name : names)
    if (std::none_of(all_bench_sheets.begin(), all_bench_sheets.end(),
                     [&](const BenchSheet& sheet) { return sheet.name == name; }))
      return Error{
          ErrorCode::not_found, "--sheet", fmt::format("there is no bench sheet '{}'; there are {}", name, known), {name}};
  Pages pages;
  pages.size = size;
  pages.lying = true;
  pages.title = tr("Bench sheets");
  for (const BenchSheet& sheet : all_bench_sheets)
    if (names.empty() || std::find(names.begin(), names.end(), sheet.name) != names.end())
      pages.sheets.push_back(BenchPainter(sheet, pages.page()).run());
  return pages;
}

}  // namespace prillbook::paper
