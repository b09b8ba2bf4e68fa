// SPDX-License-Identifier: GPL-3.0-or-later
// A day at the window, by the keyboard and now and then a button: what a person types at the stations, and what the window
// says of it. It knows nothing of the notebook beneath: an entry counts as accepted where the line at the foot says that it
// is written and the field has taken it.
#pragma once

#include <QtCore/QSize>
#include <QtCore/QString>
#include <QtCore/QStringList>
#include <functional>
#include <memory>
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

class FootEar;

class WindowDay {
 public:
  // Where a day stands between two scenes.
  struct Standing {
    int texts = 0;    // each text typed is another
    QString sample;   // in hand
    QString portion;  // of it, cut last
  };
  // In the order in which they are played.
  static const QStringList& scene_names();
  static int scenes() { return int(scene_names().size()); }

  // Shows the window and waits for its first page, which comes after the first paint.
  static void open(ui::MainWindow& window, QSize size);

  // Files that the window writes go to `folder`, those it is given stand in "brought" there.
  WindowDay(ui::MainWindow& window, Standing standing, QString folder);
  ~WindowDay();
  void on_accepted(std::function<void(const Accepted&)> told) { accepted_ = std::move(told); }
  // The path of a file that the window says is written.
  void on_file(std::function<void(const QString&)> told) { file_ = std::move(told); }
  // A scene begins; receiving may come before another that needs a sample.
  void on_scene(std::function<void(int)> told) { scene_ = std::move(told); }
  // What the scene alone does comes next; what went before, other scenes do too.
  void on_prepared(std::function<void()> told) { prepared_ = std::move(told); }
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
  struct Scene;
  static const std::vector<Scene>& all_scenes();
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
  bool findings();
  bool compare();
  bool controls();
  bool custody();
  bool photographs();
  bool summary();
  bool papers();
  bool tables();
  bool machines();
  bool composite();
  bool trays();
  bool list();
  bool signed_summary();
  bool pictures();

  QString figure(const QString& beginning);  // "0.6" as "0.60017"
  QString words(const QString& beginning);
  QString path(const QString& name);     // in the folder, each time another
  QString brought(const QString& name);  // the same of a file that comes from outside
  bool bring_in();                       // a torn bag of a new client
  bool pan_a_bead();                     // of the sample in hand
  bool part_of_set_up(const QString& name);
  bool go_to_sheet(const QString& number);
  bool cut(QChar purpose, const QString& mass);
  void half_type_first(const QString& label, const QString& text);
  bool enter(const QString& label, const QString& text, const std::string& field);
  bool enter_new(const QString& label, const QString& text, const std::string& field);  // in the empty row of a table
  bool enter_in_hand(const QString& text, const std::string& field);
  void fill(const QString& label, const QString& text);
  void pick(const QString& label, QChar key);  // in a form that is written as a whole
  bool push(const QString& button, const std::vector<Accepted>& all);
  bool take_back(Qt::KeyboardModifiers modifiers, const Accepted& what);
  bool choose(const QString& label, QChar key, const Accepted& chosen);
  bool enter_in(ui::LineField* line, const QString& text, const std::string& field);
  bool write_file(const QString& button, const QString& name);
  bool issue();
  bool make_key();
  void stop_signing();
  bool take_copy();
  // What the place of an entry shows of it: refused or still to be written; nothing more of it; the entry itself.
  enum class Shown { refused, gone, entry };
  bool attempt(const std::function<void()>& act, const std::function<Shown()>& shown, const std::vector<Accepted>& all);
  void answer_why();
  void note_refusal(const Accepted& refused, const QString& before);
  bool not_in_sight(const QString& what);
  QString written() const;  // what the foot said of the entry since it was last asked to be still
  QString said() const;     // by the foot, by fields in sight and by lines in the colour of a refusal

  ui::MainWindow& window_;
  Standing standing_;
  QString folder_;
  QString client_;  // of the bag brought in last
  std::unique_ptr<FootEar> foot_;
  std::function<void(const Accepted&)> accepted_ = [](const Accepted&) {};
  std::function<void(const QString&)> file_ = [](const QString&) {};
  std::function<void(int)> scene_ = [](int) {};
  std::function<void()> prepared_ = [] {};
  std::function<void(const HalfTyped&)> rest_;
  int refusals_ = 0;
  QStringList silences_;
  QString last_words_;
};

}  // namespace prillbook::testing_support
