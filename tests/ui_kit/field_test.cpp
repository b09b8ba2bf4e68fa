// SPDX-License-Identifier: GPL-3.0-or-later
// What every field promises: Enter and Tab write, a refusal stays in place, typed text is never lost.
#include <QtCore/QTemporaryDir>
#include <QtWidgets/QApplication>
#include <QtWidgets/QCheckBox>
#include <QtWidgets/QLineEdit>

#include "tests/support/keys.h"
#include "ui/kit/choice_row.h"
#include "ui/kit/fields.h"
#include "ui/kit/form.h"

namespace prillbook::ui {
namespace {

using readings::Reading;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Optional;
using testing_support::leave;
using testing_support::press;
using testing_support::turn_wheel;
using testing_support::write;

constexpr auto* none = "(none)";

struct Words : testing::Test {
  TextField field{"Client's mark"};
  std::vector<std::string> written;
  std::optional<Error> refusal;

  Words() {
    field.on_commit([this](const std::optional<std::string>& words) -> Result<void> {
      if (refusal) return *refusal;
      written.push_back(words.value_or(none));
      return {};
    });
    field.set_value("Larch adit");
  }
};

TEST_F(Words, EnterWritesOnce) {
  field.line()->selectAll();
  write(field.line(), "Old dump");
  EXPECT_TRUE(field.pending());
  press(field.line(), Qt::Key_Return);
  leave(field.line());
  EXPECT_THAT(written, ElementsAre("Old dump"));
  EXPECT_FALSE(field.pending());
}

TEST_F(Words, TabWritesAndUnchangedTextIsNotWritten) {
  leave(field.line());
  EXPECT_THAT(written, testing::IsEmpty());
  field.type("Old dump");
  leave(field.line(), Qt::BacktabFocusReason);
  EXPECT_THAT(written, ElementsAre("Old dump"));
}

TEST_F(Words, AnotherWindowWritesNothing) {
  field.type("Old du");
  leave(field.line(), Qt::ActiveWindowFocusReason);
  leave(field.line(), Qt::PopupFocusReason);
  EXPECT_THAT(written, testing::IsEmpty());
  EXPECT_EQ(field.typed(), "Old du");
}

TEST_F(Words, EmptyTextIsAbsent) {
  field.type("  ");
  EXPECT_TRUE(field.commit());
  EXPECT_THAT(written, ElementsAre(none));
}

TEST_F(Words, RefusedTextStaysWithItsSentence) {
  refusal = Error{ErrorCode::already_exists, "", "", {"Old dump"}};
  field.type("Old dump");
  press(field.line(), Qt::Key_Return);
  EXPECT_EQ(field.typed(), "Old dump");
  EXPECT_TRUE(field.pending());
  EXPECT_THAT(field.error_text().toStdString(), HasSubstr("Old dump"));
  EXPECT_EQ(field.line()->accessibleDescription(), field.error_text());
  EXPECT_TRUE(field.line()->property("refused").toBool());
  EXPECT_FALSE(field.commit());
  write(field.line(), "s");
  EXPECT_FALSE(field.refused());
  refusal.reset();
  EXPECT_TRUE(field.commit());
  EXPECT_THAT(written, ElementsAre("Old dumps"));
}

TEST_F(Words, EnterTriesRefusedTextAgain) {
  refusal = Error{ErrorCode::locked, "", "", {}};
  field.type("Old dump");
  press(field.line(), Qt::Key_Return);
  refusal.reset();
  press(field.line(), Qt::Key_Return);
  EXPECT_THAT(written, ElementsAre("Old dump"));
  EXPECT_FALSE(field.refused());
}

TEST_F(Words, EscapePutsBackAndBringsBack) {
  field.type("Old dump");
  press(field.line(), Qt::Key_Escape);
  EXPECT_EQ(field.typed(), "Larch adit");
  EXPECT_FALSE(field.pending());
  press(field.line(), Qt::Key_Escape);
  EXPECT_EQ(field.typed(), "Old dump");
  press(field.line(), Qt::Key_Escape);
  press(field.line(), Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(field.typed(), "Old dump");
  EXPECT_THAT(written, testing::IsEmpty());
}

TEST_F(Words, UndoIsLeftToTheWindowWhereNothingWasTyped) {
  const auto wants_undo = [this] {
    QKeyEvent ask(QEvent::ShortcutOverride, Qt::Key_Z, Qt::ControlModifier);
    ask.setAccepted(false);
    QApplication::sendEvent(field.line(), &ask);
    return ask.isAccepted();
  };
  EXPECT_FALSE(wants_undo());
  field.type("Old dump");
  press(field.line(), Qt::Key_Escape);
  EXPECT_TRUE(wants_undo());
}

TEST_F(Words, PuttingBackIsLeftToTheWindowWhereTheLineHasNothingToPutBack) {
  const auto wants_redo = [this] {
    QKeyEvent ask(QEvent::ShortcutOverride, Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    ask.setAccepted(false);
    QApplication::sendEvent(field.line(), &ask);
    return ask.isAccepted();
  };
  EXPECT_FALSE(wants_redo());
  field.line()->insert("Old dump");
  field.line()->undo();
  EXPECT_TRUE(wants_redo());
}

TEST_F(Words, NewsFromTheNotebookLeavesTypedTextAlone) {
  field.type("Old dump");
  field.set_value("Larch adit N");
  EXPECT_EQ(field.typed(), "Old dump");
  press(field.line(), Qt::Key_Escape);
  EXPECT_EQ(field.typed(), "Larch adit N");
}

TEST_F(Words, TheCommandMayTakeTheFieldAway) {
  auto* gone = new TextField("Mark");
  gone->on_commit([gone](const auto&) -> Result<void> {
    delete gone;
    return {};
  });
  const QPointer<TextField> alive(gone);
  gone->type("x");
  QKeyEvent enter(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier);
  QApplication::sendEvent(gone->line(), &enter);
  EXPECT_FALSE(alive);
}

TEST_F(Words, NameReachesScreenReaders) {
  EXPECT_EQ(field.line()->accessibleName(), "Client's mark");
  field.set_hint("as written on the bag");
  EXPECT_EQ(field.line()->accessibleDescription(), "as written on the bag");
}

TEST(EveryField, IsNamedAndIgnoresTheWheel) {
  SteppingClock clock(*parse_iso("2026-05-04T09:00+02:00"));
  Form form;
  std::vector<Field*> fields = {new TextField("Words"),
                                new ReadingField("Mass", {}),
                                new WholeField("Pieces"),
                                new DateTimeField("Arrived", clock),
                                new PickField("Client"),
                                new ChoiceField("Kind", {{"grab", "grab"}, {"chip", "chip"}}),
                                new FlagField("Condition", "leaking")};
  for (Field* field : fields) {
    form.wide(field);
    EXPECT_EQ(field->editor()->accessibleName(), field->label());
    EXPECT_FALSE(turn_wheel(field->editor())) << field->label().toStdString();
    EXPECT_FALSE(field->pending());
  }
}

TEST(Choice, LettersTakeAndRefusalPutsBack) {
  ChoiceField field("Kind", {{"chip", "chip"}, {"channel", "channel"}, {"bulk", "bulk"}});
  std::optional<std::string> written;
  bool refuse = false;
  field.on_commit([&](const std::optional<std::string>& value) -> Result<void> {
    if (refuse) return Error{ErrorCode::read_only, "", "", {}};
    written = value;
    return {};
  });
  press(field.editor(), Qt::Key_H, Qt::NoModifier, "h");  // c is taken by "chip"
  EXPECT_THAT(written, Optional(std::string("channel")));
  press(field.editor(), Qt::Key_Right);
  EXPECT_THAT(written, Optional(std::string("bulk")));
  EXPECT_EQ(field.editor()->accessibleName(), "Kind: bulk");
  refuse = true;
  press(field.editor(), Qt::Key_C, Qt::NoModifier, "c");
  EXPECT_THAT(field.value(), Optional(std::string("bulk")));
  EXPECT_TRUE(field.refused());
  refuse = false;
  press(field.editor(), Qt::Key_Backspace);
  EXPECT_EQ(field.value(), std::nullopt);
  EXPECT_EQ(written, std::nullopt);
}

TEST(Choice, EveryWordHasItsOwnKey) {
  const auto keys = keys_of({"chip", "channel", "hic", "c"});
  EXPECT_EQ(keys[0].key, 'c');
  EXPECT_EQ(keys[1].key, 'h');
  EXPECT_EQ(keys[2].key, 'i');
  EXPECT_EQ(keys[3].key, '1');
}

TEST(Flag, RefusalTurnsItBack) {
  FlagField field("Condition", "leaking");
  field.on_commit([](bool) -> Result<void> { return Error{ErrorCode::disk_full, "", "", {}}; });
  qobject_cast<QCheckBox*>(field.editor())->click();
  EXPECT_FALSE(qobject_cast<QCheckBox*>(field.editor())->isChecked());
  EXPECT_TRUE(field.refused());
}

TEST(Whole, TakesWholeNumbersOnly) {
  WholeField field("Pieces", 1);
  std::optional<std::int64_t> written;
  field.on_commit([&](std::optional<std::int64_t> value) -> Result<void> {
    written = value;
    return {};
  });
  for (const char* bad : {"1.5", "x", "0", "-3", "99999999999999999999"}) {
    field.type(bad);
    EXPECT_FALSE(field.commit()) << bad;
    EXPECT_TRUE(field.refused());
  }
  field.type("007");
  EXPECT_TRUE(field.commit());
  EXPECT_THAT(written, Optional(7));
  EXPECT_EQ(field.typed(), "7");
}

TEST(Pick, BeginningThatFitsOneIsEnough) {
  PickField field("Client");
  field.set_items({{1, "Sorrel"}, {2, "Sorrel and Rue"}, {3, "Fernhill"}});
  std::optional<std::int64_t> written;
  field.on_commit([&](std::optional<std::int64_t> id) -> Result<void> {
    written = id;
    return {};
  });
  field.type("fern");
  EXPECT_TRUE(field.commit());
  EXPECT_THAT(written, Optional(3));
  EXPECT_EQ(field.typed(), "Fernhill");
  field.type("so");
  EXPECT_FALSE(field.commit());
  field.type("sorrel");
  EXPECT_TRUE(field.commit());
  EXPECT_THAT(written, Optional(1));
  field.type("Quarry");
  EXPECT_FALSE(field.commit());
  field.on_new([](const std::string&) -> Result<std::int64_t> { return 9; });
  press(field.line(), Qt::Key_Return);
  EXPECT_THAT(written, Optional(9));
}

}  // namespace
}  // namespace prillbook::ui
