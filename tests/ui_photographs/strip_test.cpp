// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <QtCore/QBuffer>
#include <QtCore/QMimeData>
#include <QtGui/QClipboard>
#include <QtGui/QDropEvent>
#include <QtWidgets/QListWidget>

#include "core/attachments/attachments.h"
#include "core/history/rows.h"
#include "tests/support/files.h"
#include "tests/support/window_hand.h"
#include "ui/kit/reason_line.h"
#include "ui/photographs/photograph_strip.h"
#include "ui/photographs/thumbnails.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;

struct Strip : WithApplication, testing::Test, LabWithSample<FileNotebook> {
  Desk desk{*connection, book};
  PhotographStrip strip{desk.session};

  void SetUp() override {
    QObject::connect(&desk.notifier, &Notifier::written, &strip, [this] { strip.refresh(); });
    strip.show_owner({sample, {}});
    show(strip, 700, 700);
  }
  QImage image(int shade) {
    QImage made(64, 48, QImage::Format_RGB32);
    made.fill(QColor(shade, 90, 60));
    return made;
  }
  QString file_with(int shade, const char* name) {
    const QString made = QString::fromStdString(folder.file(name));
    EXPECT_TRUE(image(shade).save(made));
    return made;
  }
  std::vector<attachments::Attachment> held() { return attachments::attachments_of(*connection, {sample, {}}).value(); }
};

TEST_F(Strip, TakesAFile) {
  strip.add_file(file_with(10, "bag.png"));
  ASSERT_EQ(held().size(), 1u);
  EXPECT_EQ(held()[0].original_name, "bag.png");
  EXPECT_TRUE(held()[0].taken_at.has_value()) << "the time of the file";
  EXPECT_EQ(strip.count(), 1);
  EXPECT_EQ(strip.news(), QString());
}

TEST_F(Strip, TakesWhatIsDropped) {
  QMimeData data;
  data.setUrls({QUrl::fromLocalFile(file_with(10, "a.png")), QUrl::fromLocalFile(file_with(20, "b.png"))});
  QDragEnterEvent enter(QPoint(5, 5), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
  QCoreApplication::sendEvent(&strip, &enter);
  EXPECT_TRUE(enter.isAccepted());
  QDropEvent drop(QPointF(5, 5), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
  QCoreApplication::sendEvent(&strip, &drop);
  EXPECT_EQ(held().size(), 2u);
  EXPECT_TRUE(drop.isAccepted());
}

TEST_F(Strip, TakesWhatIsPasted) {
  QGuiApplication::clipboard()->setImage(image(30));
  button(strip, "Add a photograph…")->setFocus();
  press(Qt::Key_V, Qt::ControlModifier);
  ASSERT_EQ(held().size(), 1u);
  EXPECT_EQ(held()[0].width, 64);
  EXPECT_FALSE(held()[0].original_name.has_value());
}

TEST_F(Strip, SaysWhyAFileWasNotTaken) {
  const std::string letter = folder.file("letter.jpg");
  write_file(letter, "Dear lab");
  strip.add_file(QString::fromStdString(letter));
  EXPECT_TRUE(held().empty());
  EXPECT_THAT(strip.news().toStdString(), testing::HasSubstr("letter.jpg was not taken: it holds no picture"));
  strip.add_file(QString::fromStdString(folder.file("absent.jpg")));
  EXPECT_THAT(strip.news().toStdString(), testing::HasSubstr("can’t be read"));
  const QString bag = file_with(10, "bag.png");
  strip.add_file(bag);
  EXPECT_EQ(strip.news(), QString());
  strip.add_file(bag);
  EXPECT_THAT(strip.news().toStdString(), testing::HasSubstr("is here already"));
  EXPECT_EQ(held().size(), 1u);
}

TEST_F(Strip, ALargeFileIsRefusedWithTheLimit) {
  const std::string film = folder.file("film.jpg");
  write_file(film, "x");
  std::filesystem::resize_file(film, std::uintmax_t(attachments::most_file_bytes) + 1);
  strip.add_file(QString::fromStdString(film));
  EXPECT_THAT(strip.news().toStdString(), testing::HasSubstr("limit of 100.0 MB"));
}

TEST_F(Strip, EnterOpensTheOneInHandLargeAndEscapeClosesIt) {
  strip.add_file(file_with(10, "a.png"));
  strip.add_file(file_with(20, "b.png"));
  strip.row()->setFocus();
  strip.row()->setCurrentRow(0);
  press(Qt::Key_Return);
  ASSERT_TRUE(strip.is_large());
  EXPECT_TRUE(in_sight(strip, "Caption"));
  press(Qt::Key_Right);
  EXPECT_EQ(strip.in_hand(), held()[1].id);
  strip.row()->setFocus();
  press(Qt::Key_Escape);
  EXPECT_FALSE(strip.is_large());
}

TEST_F(Strip, TheCaptionIsAFieldLikeAnyOther) {
  strip.add_file(file_with(10, "a.png"));
  strip.row()->setFocus();
  press(Qt::Key_Return);
  enter_in(strip, "Caption", "torn at the seam");
  EXPECT_EQ(held()[0].caption, "torn at the seam");
  EXPECT_EQ(strip.row()->item(0)->text(), "torn at the seam");
  EXPECT_TRUE(strip.is_large()) << "writing leaves it open";
}

TEST_F(Strip, StrikingOutAsksWhy) {
  strip.add_file(file_with(10, "a.png"));
  const AttachmentId id = held()[0].id;
  strip.row()->setFocus();
  press(Qt::Key_Return);
  button(strip, "Strike it out…")->click();
  EXPECT_EQ(held().size(), 1u) << "not without a reason";
  type_and_enter("of another bag");
  settle();
  EXPECT_TRUE(held().empty());
  EXPECT_EQ(strip.count(), 0);
  EXPECT_FALSE(strip.is_large());
  EXPECT_EQ(history::record_history(*connection, history::Entity::attachment, id.value)->back().why, "of another bag");
}

TEST_F(Strip, ThumbnailsAreReadOnce) {
  strip.add_file(file_with(10, "a.png"));
  strip.add_file(file_with(20, "b.png"));
  const int read = strip.thumbnails().read_count();
  EXPECT_EQ(read, 2);
  for (int i = 0; i < 5; ++i) strip.refresh();
  strip.show_owner({{}, consignment});
  EXPECT_EQ(strip.count(), 0);
  strip.show_owner({sample, {}});
  EXPECT_EQ(strip.count(), 2);
  EXPECT_EQ(strip.thumbnails().read_count(), read);
}

}  // namespace
}  // namespace prillbook::ui
