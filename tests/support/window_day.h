// SPDX-License-Identifier: GPL-3.0-or-later
// A day at the window, by the keyboard and now and then a button: what a person types at the stations, and what the window
// says of it. It knows nothing of the notebook beneath: an entry counts as accepted where the line at the foot says that it
// is written and the field has taken it.
#pragma once

#include <QtCore/QSize>
#include <QtCore/QString>
#include <QtCore/QStringList>
#include <functional>
#include <string>
#include <vector>

#include "ui/window/main_window.h"

namespace prillbook::ui {
class LineField;
}

namespace prillbook::testing_support {

// What the window showed as accepted: "sample.mark" with the text as typed, or "pan_test" for a test begun by a button.
struct Accepted {
  std::string field;
  std::string typed;

  friend auto operator<=>(const Accepted&, const Accepted&) = default;
};

// Typed into this field of a portion and left there without Enter.
struct HalfTyped {
  QString portion;  // "26-0001/1"
  QString label;
  QString text;
  QString whole;  // what it becomes
};

class WindowDay {
 public:
  // Where a day stands between two scenes.
  struct Standing {
    int texts = 0;    // each text typed is another
    QString sample;   // in hand
    QString portion;  // of it, cut last
  };
  // The opening of an empty lab, receiving, preparation, sheet, pan, furnace, sieves, weigh room, quality, set-up.
  static constexpr int scenes = 10;

  // Shows the window and waits for its first page, which comes after the first paint.
  static void open(ui::MainWindow& window, QSize size);

  WindowDay(ui::MainWindow& window, Standing standing) : window_(window), standing_(std::move(standing)) {}
  void on_accepted(std::function<void(const Accepted&)> told) { accepted_ = std::move(told); }
  // The next text that can be found again is left half typed for as long as `rest` takes, and then typed anew.
  void on_half_typed(std::function<void(const HalfTyped&)> rest) { rest_ = std::move(rest); }

  // False where the window refused an entry twice: there the scene ends.
  bool play(int scene);
  const Standing& standing() const { return standing_; }
  int refusals() const { return refusals_; }
  // Entries that were neither accepted nor refused with a word in sight.
  const QStringList& silences() const { return silences_; }
  QString last_words() const { return last_words_; }  // of a refusal

  // Opens the sheet and looks whether the field offers the text; takes it up and writes it where it does.
  bool take_up(const HalfTyped& half);

 private:
  bool first_steps();
  bool receiving();
  bool preparation();
  bool sheet();
  bool pan();
  bool furnace();
  bool sieves();
  bool weigh_room();
  bool quality();
  bool set_up();

  QString figure(const QString& beginning);  // "0.6" as "0.60017"
  QString words(const QString& beginning);
  bool go_to_sheet(const QString& number);
  bool cut(QChar purpose, const QString& mass);
  void half_type_first(const QString& label, const QString& text);
  bool enter(const QString& label, const QString& text, const std::string& field);
  bool enter_in_hand(const QString& text, const std::string& field);
  void fill(const QString& label, const QString& text);
  bool push(const QString& button, const std::vector<Accepted>& all);
  bool take_back(Qt::KeyboardModifiers modifiers, const Accepted& what);
  bool choose(const QString& label, QChar key, const Accepted& chosen);
  bool enter_in(ui::LineField* line, const QString& text, const std::string& field);
  // What the place of an entry shows of it: refused or still to be written; nothing more of it; the entry itself.
  enum class Shown { refused, gone, entry };
  bool attempt(const std::function<void()>& act, const std::function<Shown()>& shown, const std::vector<Accepted>& all);
  void answer_why();
  void note_refusal(const Accepted& refused, const QString& before);
  QString foot() const;
  QString said() const;  // by the foot, by fields in sight and by lines in the colour of a refusal

  ui::MainWindow& window_;
  Standing standing_;
  std::function<void(const Accepted&)> accepted_ = [](const Accepted&) {};
  std::function<void(const HalfTyped&)> rest_;
  int refusals_ = 0;
  QStringList silences_;
  QString last_words_;
};

}  // namespace prillbook::testing_support
