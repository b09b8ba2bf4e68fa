// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/import_words.h"

#include <QtCore/QCoreApplication>

#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

struct ListWords {
  Q_DECLARE_TR_FUNCTIONS(ListWords)

 public:
  static QString argument(const Error& error, std::size_t index) {
    return index < error.arguments.size() ? to_qt(error.arguments[index]) : QString();
  }

  static QString list(const Error& error) {
    if (error.field == "file_size") return tr("The file is larger than a list can be: 32 MB at most.");
    if (error.field == "nul")
      return tr("Line %1 holds a zero byte: this is no list, or one in another encoding.").arg(argument(error, 0));
    if (error.field == "quote")
      return tr("The row that begins on line %1 has a quote that is never closed.").arg(argument(error, 0));
    if (error.field == "after_quote")
      return tr("The row that begins on line %1 has letters after a closing quote.").arg(argument(error, 0));
    if (error.field == "cell_size") return tr("Line %1 has a cell larger than a megabyte.").arg(argument(error, 0));
    if (error.field == "columns") return tr("Line %1 has more than 200 columns.").arg(argument(error, 0));
    if (error.field == "rows") return tr("There is no row in it.");
    return sentence(error);
  }

  static QString note(const Error& error) {
    if (error.code == ErrorCode::missing_key) return tr("A sample needs the client’s mark.");
    if (error.code == ErrorCode::already_exists && argument(error, 1) == "0")
      return tr("A sample of this consignment has the mark “%1” already; it can be entered all the same.")
          .arg(argument(error, 0));
    if (error.code == ErrorCode::already_exists)
      return tr("The mark “%1” stands on line %2 as well; it can be entered all the same.")
          .arg(argument(error, 0), argument(error, 1));
    if (error.field == "letter") return tr("A letter here can’t be read in this encoding.");
    if (error.field == "choice") return tr("“%1” is not one of: %2.").arg(argument(error, 0), argument(error, 1));
    if (error.field == "columns") return tr("The row has %1 cells where %2 belong.").arg(argument(error, 0), argument(error, 1));
    return sentence(error);
  }

  static QString word(const Error& error) {
    switch (error.code) {
      case ErrorCode::missing_key: return tr("missing");
      case ErrorCode::already_exists: return tr("twice");
      case ErrorCode::not_a_number: return tr("no number");
      case ErrorCode::unknown_unit: return tr("no unit");
      case ErrorCode::ambiguous_mark: return tr("comma or point?");
      case ErrorCode::inconsistent: return tr("cells");
      case ErrorCode::wrong_type: return tr("unreadable");
      default: return error.field == "choice" ? tr("no such word") : tr("not possible");
    }
  }

  static QString field(intake::ListField field) {
    using intake::ListField;
    switch (field) {
      case ListField::none: return tr("passed over");
      case ListField::mark: return tr("Client’s mark");
      case ListField::kind: return tr("Kind");
      case ListField::place: return tr("Place taken");
      case ListField::expected: return tr("Expected class");
      case ListField::condition: return tr("Condition on receipt");
      case ListField::mass_declared: return tr("Mass declared");
      case ListField::mass_received: return tr("Mass received");
      case ListField::moisture: return tr("Moisture");
      case ListField::remarks: return tr("Remarks");
    }
    return {};
  }

  static QString encoding(tables::Encoding encoding) {
    switch (encoding) {
      case tables::Encoding::utf8: return tr("UTF-8");
      case tables::Encoding::utf16_le: return tr("UTF-16, little end first");
      case tables::Encoding::utf16_be: return tr("UTF-16, big end first");
      case tables::Encoding::windows_1252: return tr("Windows-1252");
    }
    return {};
  }

  static QString delimiter(char delimiter) {
    switch (delimiter) {
      case ';': return tr("semicolon");
      case '\t': return tr("tab");
      case '|': return tr("bar");
      default: return tr("comma");
    }
  }

  static QString mark(DecimalMark mark) { return mark == DecimalMark::comma ? tr("comma") : tr("point"); }

  static QString count(std::size_t samples, std::size_t refused) {
    const QString all = samples == 1 ? tr("1 sample") : tr("%1 samples").arg(samples);
    if (refused == 0) return all;
    return refused == 1 ? tr("%1, 1 row needs a look").arg(all) : tr("%1, %2 rows need a look").arg(all).arg(refused);
  }
};

}  // namespace

QString list_sentence(const Error& error) { return ListWords::list(error); }
QString note_sentence(const intake::RowNote& note) { return ListWords::note(note.error); }
QString note_word(const intake::RowNote& note) { return ListWords::word(note.error); }
QString list_field_words(intake::ListField field) { return ListWords::field(field); }
QString column_use_words(const intake::ColumnUse& use) {
  const QString words = list_field_words(use.field);
  return use.unit.empty() ? words : QStringLiteral("%1, %2").arg(words, to_qt(use.unit));
}
QString encoding_words(tables::Encoding encoding) { return ListWords::encoding(encoding); }
QString delimiter_words(char delimiter) { return ListWords::delimiter(delimiter); }
QString mark_words(DecimalMark mark) { return ListWords::mark(mark); }
QString count_words(std::size_t samples, std::size_t refused) { return ListWords::count(samples, refused); }

}  // namespace prillbook::ui
