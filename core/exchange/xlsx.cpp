// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/xlsx.h"

#include <fcntl.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <cerrno>
#include <charconv>
#include <clocale>
#include <filesystem>
#include <map>
#include <utility>
#include <vector>

#include "core/exchange/columns.h"
#include "core/store/part_file.h"

namespace prillbook::exchange {
namespace {

constexpr std::size_t longest_cell = 32'767;   // characters
constexpr std::size_t longest_property = 200;  // of the 255 a property can hold

// The library prints numbers by the locale of the thread: in a country of commas the sheet would be damaged.
class PlainNumbers {
 public:
  PlainNumbers() : plain_(newlocale(LC_ALL_MASK, "C", locale_t{})), before_(plain_ ? uselocale(plain_) : locale_t{}) {}
  ~PlainNumbers() {
    if (!plain_) return;
    uselocale(before_);
    freelocale(plain_);
  }
  PlainNumbers(const PlainNumbers&) = delete;
  PlainNumbers& operator=(const PlainNumbers&) = delete;

 private:
  locale_t plain_, before_;
};

// The first `characters` of a UTF-8 text.
std::string cut(const std::string& text, std::size_t characters) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++i)
    if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80 && ++count > characters) return text.substr(0, i);
  return text;
}

int decimals_of(const std::string& digits) {
  const std::size_t point = digits.find('.');
  return point == std::string::npos ? 0 : static_cast<int>(digits.size() - point - 1);
}

class Sheet {
 public:
  Sheet(lxw_workbook* book, const std::string& name) : book_(book), sheet_(workbook_add_worksheet(book, name.c_str())) {
    bold_ = workbook_add_format(book);
    format_set_bold(bold_);
    format_set_text_wrap(bold_);
    format_set_align(bold_, LXW_ALIGN_VERTICAL_TOP);
    when_ = workbook_add_format(book);
    format_set_num_format(when_, "yyyy-mm-dd hh:mm");
  }

  lxw_row_t row() const { return row_; }
  void next_row() { ++row_, column_ = 0; }
  void skip() { ++column_; }

  void title(const std::string& text) { write(text, bold_); }
  void text(const std::string& text) { write(text, nullptr); }

  void number(double value, int decimals) { worksheet_write_number(sheet_, row_, column_++, value, with_decimals(decimals)); }
  void number(const std::string& digits) {
    double value = 0;
    const char* end = digits.data() + digits.size();
    if (digits.empty() || std::from_chars(digits.data(), end, value).ptr != end) return skip();
    number(value, decimals_of(digits));
  }
  void plain_number(const std::optional<double>& value) {
    if (value) worksheet_write_number(sheet_, row_, column_, *value, nullptr);
    skip();
  }
  void when(const std::optional<Instant>& instant) {
    if (instant) {
      const std::string local = to_iso(*instant);
      const auto part = [&](std::size_t at, std::size_t length) {
        int value = 0;
        std::from_chars(local.data() + at, local.data() + at + length, value);
        return value;
      };
      lxw_datetime time{part(0, 4), part(5, 2), part(8, 2), part(11, 2), part(14, 2), 0};
      worksheet_write_datetime(sheet_, row_, column_, &time, when_);
    }
    skip();
  }
  void width(lxw_col_t first, lxw_col_t last, double characters) {
    worksheet_set_column(sheet_, first, last, characters, nullptr);
  }
  void freeze(lxw_row_t row, lxw_col_t column) { worksheet_freeze_panes(sheet_, row, column); }

 private:
  void write(const std::string& text, lxw_format* format) {
    if (!text.empty()) worksheet_write_string(sheet_, row_, column_, cut(text, longest_cell).c_str(), format);
    skip();
  }
  lxw_format* with_decimals(int decimals) {
    lxw_format*& format = decimals_[decimals];
    if (!format) {
      format = workbook_add_format(book_);
      const std::string pattern = decimals > 0 ? "0." + std::string(static_cast<std::size_t>(decimals), '0') : "0";
      format_set_num_format(format, pattern.c_str());
    }
    return format;
  }

  lxw_workbook* book_;
  lxw_worksheet* sheet_;
  lxw_format *bold_, *when_;
  std::map<int, lxw_format*> decimals_;
  lxw_row_t row_ = 0;
  lxw_col_t column_ = 0;
};

void line_of_text(Sheet& sheet, const std::string& text) {
  sheet.text(text);
  sheet.next_row();
}

void write_summary(Sheet& sheet, const summary::Report& report) {
  sheet.width(0, 0, 12);
  sheet.width(1, 3, 20);
  sheet.width(4, 100, 15);
  sheet.title(report.title);
  sheet.next_row();
  for (const auto* lines : {&report.letterhead, &report.client})
    for (const std::string& text : *lines) line_of_text(sheet, text);
  line_of_text(sheet, report.issued);
  sheet.next_row();
  const auto columns = summary_columns();
  for (const SummaryColumn& column : columns) sheet.title(title_of(column, report.say));
  sheet.next_row();
  sheet.freeze(sheet.row(), 1);
  for (const summary::ResultLine& line : report.lines) {
    const std::vector<std::string> cells = summary_cells(line, report.say);
    for (std::size_t i = 0; i < cells.size(); ++i) columns[i].number ? sheet.number(cells[i]) : sheet.text(cells[i]);
    sheet.next_row();
  }
  sheet.next_row();
  for (const summary::Block& block : report.blocks) {
    if (const auto* cautions = std::get_if<summary::Cautions>(&block))
      for (const std::string& sentence : cautions->sentences) line_of_text(sheet, sentence);
    if (const auto* end = std::get_if<summary::EndMark>(&block); end && !end->notebook_state.empty())
      line_of_text(sheet, report.say("page.state", {{"state", end->notebook_state}}));
  }
}

void write_readings(Sheet& sheet, const summary::Report& report, const Watch& watch) {
  sheet.width(0, 1, 14);
  sheet.width(2, 3, 26);
  sheet.width(4, 10, 14);
  const summary::Speech& say = report.say;
  for (const char* name :
       {"sample", "test", "what", "typed", "value", "unit", "meaning", "balance", "step", "who", "when", "left_out"})
    sheet.title(say.named("sheet", name));
  sheet.next_row();
  sheet.freeze(1, 1);
  std::size_t done = 0;
  for (const summary::ReadingLine& line : report.readings) {
    if (watch.stopped()) return;
    watch.tell(done++, report.readings.size());
    sheet.text(line.sample);
    sheet.text(line.test);
    sheet.text(say.again("read", line.what));
    sheet.text(line.typed);
    sheet.plain_number(line.value);
    sheet.text(line.unit);
    sheet.text(line.below ? say("sheet.limit") : line.value ? say("sheet.measured") : say("sheet.none_seen"));
    sheet.text(line.balance);
    sheet.plain_number(line.step_g);
    sheet.text(line.who);
    sheet.when(line.when);
    sheet.text(line.left_out);
    sheet.next_row();
  }
}

void set_properties(lxw_workbook* book, const summary::Report& report) {
  std::string title = cut(report.title, longest_property);
  std::string company = report.letterhead.empty() ? "" : cut(report.letterhead.front(), longest_property);
  lxw_doc_properties properties{};
  properties.title = title.data();
  if (!company.empty()) properties.company = company.data();
  properties.created = static_cast<time_t>(report.now.utc_ms / 1000);
  workbook_set_properties(book, &properties);
}

lxw_error write_book(const summary::Report& report, const std::string& path, const Watch& watch) {
  std::string folder = std::filesystem::path(path).parent_path().string();
  if (folder.empty()) folder = ".";
  // The library's own temporary files stand beside the file: where they don't fit, neither does it.
  lxw_workbook_options options{};
  options.tmpdir = folder.data();
  lxw_workbook* book = workbook_new_opt(store::part_path(path).c_str(), &options);
  if (!book) return LXW_ERROR_MEMORY_MALLOC_FAILED;
  Sheet summary_sheet(book, report.say("sheet.summary")), readings_sheet(book, report.say("sheet.readings"));
  write_summary(summary_sheet, report);
  write_readings(readings_sheet, report, watch);
  set_properties(book, report);
  return workbook_close(book);
}

}  // namespace

Result<void> write_xlsx(const summary::Report& report, const std::string& path, const Watch& watch) {
  // Opened once by ourselves: the system's own reason is gone when the library gives its error.
  const int descriptor = ::open(store::part_path(path).c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (descriptor < 0) return store::file_fault(errno, path);
  ::close(descriptor);
  const PlainNumbers plain;
  if (write_book(report, path, watch) != LXW_NO_ERROR) {
    store::drop_part(path);
    return store::file_fault(ENOSPC, path);
  }
  if (watch.stopped()) {
    store::drop_part(path);
    return refusal(ErrorCode::cancelled, "xlsx", "stopped");
  }
  return store::finish_part(path);
}

}  // namespace prillbook::exchange
