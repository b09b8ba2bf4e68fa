// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/paper.h"

#include <QtCore/QBuffer>
#include <QtGui/QPageLayout>
#include <QtGui/QPageSize>
#include <QtGui/QPdfWriter>
#include <algorithm>

#include "core/store/part_file.h"
#include "ui/paper/blocks.h"
#include "ui/paper/bookmarks.h"

namespace prillbook::paper {
namespace {

using namespace summary;  // the blocks of the document

constexpr int units_per_inch = 720;
constexpr double unit_8 = 80;  // the rhythm of the page

Lines body_lines(Flow& flow, const std::string& text, Size size, bool bold = false, double narrower = 0) {
  return Lines(text_of(text), flow.faces().face(size, bold), flow.width() - narrower, line_height(size));
}

struct Painter {
  Flow& flow;
  const Report& report;

  void operator()(const Heading& heading) {
    const bool sample = heading.level == 1;
    const Size size = sample ? Size::large : Size::body;
    flow.space(sample ? 3 * unit_8 : 1.6 * unit_8);
    // Some lines of what it heads.
    flow.need((sample ? 7 : 4) * line_height(Size::body));
    flow.bookmark(heading.level, heading.text);
    flow.text(body_lines(flow, heading.text, size, true), flow.left(), sample ? ink::text : ink::accent);
    if (!sample) return;
    flow.advance(0.4 * unit_8);
    flow.rule(flow.left(), flow.right(), ink::quiet, 6);
  }
  void operator()(const Paragraph& paragraph) {
    const Size size = paragraph.tone == Tone::lead ? Size::large : paragraph.tone == Tone::quiet ? Size::small : Size::body;
    flow.text(body_lines(flow, paragraph.text, size), flow.left(), paragraph.tone == Tone::quiet ? ink::quiet : ink::text);
    flow.advance(0.4 * unit_8);
  }
  void operator()(const Table& table) { lay_out_table(flow, table); }
  void operator()(const IntervalPicture& picture) {
    flow.space(unit_8);
    lay_out_picture(flow, picture, report.say);
  }
  void operator()(const SievePicture& picture) { lay_out_sieve_curves(flow, picture, report.say); }
  void operator()(const Photograph& photograph) { lay_out_photograph(flow, photograph, report.say); }
  void operator()(const Cautions& cautions) {
    const double indent = 1.5 * unit_8;
    const double height = line_height(Size::small);
    for (const std::string& sentence : cautions.sentences) {
      // The last goes with the signature: that never stands alone on a page.
      flow.need(&sentence == &cautions.sentences.back() ? 3 * height + 11 * unit_8 : height);
      flow.put(Lines(QStringLiteral("•"), flow.faces().face(Size::small), indent, height).all(flow.left(), flow.y(), ink::quiet));
      flow.text(body_lines(flow, sentence, Size::small, false, indent), flow.left() + indent, ink::text);
      flow.advance(0.2 * unit_8);
    }
  }
  void operator()(const Signature& signature) {
    const double name = 2300, date = 1200, gap = 4 * unit_8, height = line_height(Size::small);
    flow.need(6 * unit_8 + height);
    flow.advance(6 * unit_8);
    flow.rule(flow.left(), flow.left() + name, ink::text, 6);
    flow.rule(flow.left() + name + gap, flow.left() + name + gap + date, ink::text, 6);
    const QFont small = flow.faces().face(Size::small);
    flow.advance(0.3 * unit_8);
    flow.put(Lines(text_of(signature.label), small, name, height).all(flow.left(), flow.y(), ink::quiet));
    flow.put(Lines(text_of(report.say("page.date")), small, date, height).all(flow.left() + name + gap, flow.y(), ink::quiet));
    flow.advance(height);
  }
  void operator()(const EndMark& end) {
    const QFont small = flow.faces().face(Size::small);
    const double height = line_height(Size::small);
    flow.need(2 * unit_8 + 3 * height);
    flow.space(2 * unit_8);
    flow.rule(flow.left(), flow.right(), ink::rule, 6);
    flow.advance(0.6 * unit_8);
    flow.text(Lines(text_of(end.text), small, flow.width(), height, Lines::Side::centre), flow.left(), ink::text);
    if (end.notebook_state.empty()) return;
    const std::string state = report.say("page.state", {{"state", end.notebook_state}});
    flow.text(Lines(text_of(state), small, flow.width(), height, Lines::Side::centre), flow.left(), ink::quiet);
  }
};

// Who writes, to whom, what and when: the top of the first page.
void lay_out_head(Flow& flow, const Report& report) {
  const double side = flow.width() * 0.58;
  const double top = flow.y();
  const auto column = [&](const std::vector<std::string>& texts, double x, double width, Lines::Side align, Size first) {
    double y = top;
    Size size = first;
    for (const std::string& text : texts) {
      const Lines lines(text_of(text), flow.faces().face(size, size == first && first != Size::small), width, line_height(size),
                        align);
      flow.put(lines.all(x, y, size == first ? ink::text : ink::quiet));
      y += lines.height();
      size = Size::small;
    }
    return y;
  };
  const double left_end = column(report.letterhead, flow.left(), side, Lines::Side::left, Size::large);
  const double right_end =
      column({report.title, report.issued}, flow.left() + side, flow.width() - side, Lines::Side::right, Size::large);
  flow.advance(std::max(left_end, right_end) - top + 0.8 * unit_8);
  flow.rule(flow.left(), flow.right(), ink::text, 10);
  flow.advance(unit_8);
  bool first = true;
  for (const std::string& text : report.client) {
    flow.text(body_lines(flow, first ? report.say("page.for", {{"client", text}}) : text, first ? Size::body : Size::small),
              flow.left(), first ? ink::text : ink::quiet);
    first = false;
  }
  flow.advance(unit_8);
}

// A block, or headings with the block that they head. A heading never stands alone at the foot: where what comes next is
// too high for the page, it begins the new one. Gives the number of the next block.
std::size_t put_headed(Flow& flow, const Report& report, std::size_t first, bool on_new_page = false) {
  const Flow::Mark before = flow.here();
  bool alone = false, heading = true;
  std::size_t next = first;
  while (heading && next < report.blocks.size()) {
    const Flow::Mark under_heading = flow.here();
    heading = std::holds_alternative<Heading>(report.blocks[next]);
    std::visit(Painter{flow, report}, report.blocks[next]);
    alone = alone || (next > first && flow.ended_at(under_heading));
    ++next;
  }
  if (!alone || on_new_page) return next;
  flow.back_to(before);
  flow.begin_page();
  return put_headed(flow, report, first, true);
}

struct LaidOut {
  std::vector<Sheet> sheets;
  std::vector<Bookmark> bookmarks;
};

// Laying out is half of the work, painting the other.
LaidOut lay_out(const Report& report, const Paper& paper, const Watch& watch) {
  Flow flow(paper, top_margin);
  lay_out_head(flow, report);
  for (std::size_t i = 0; i < report.blocks.size() && !watch.stopped();) {
    i = put_headed(flow, report, i);
    watch.tell(i - 1, 2 * report.blocks.size());
  }
  std::vector<Bookmark> bookmarks = flow.take_bookmarks();
  return {flow.take(), std::move(bookmarks)};
}

// The running head of a later page and the foot of each.
void paint_frame(QPainter& painter, const Report& report, const Paper& paper, std::size_t page, std::size_t pages) {
  const Faces faces(paper);
  const QSizeF size = page_size(paper.size);
  const double width = size.width() - 2 * side_margin, height = line_height(Size::small);
  const QFont small = faces.face(Size::small);
  const auto put = [&](const QString& text, double y, Lines::Side side) {
    const QString fitted = QFontMetricsF(small).elidedText(text, Qt::ElideRight, width * 0.7);
    Lines(fitted, small, width, height, side).all(side_margin, y, ink::quiet)(painter);
  };
  if (page > 0) {
    QStringList parts;
    for (const auto* texts : {&report.letterhead, &report.client})
      if (!texts->empty()) parts << text_of(texts->front());
    put(text_of(report.title) + QStringLiteral(" · ") + text_of(report.issued), top_margin - height, Lines::Side::right);
    put(QFontMetricsF(small).elidedText(parts.join(QStringLiteral(" · ")), Qt::ElideRight, width * 0.6), top_margin - height,
        Lines::Side::left);
    painter.setPen(QPen(ink::rule, 6));
    painter.drawLine(QPointF(side_margin, top_margin + 40), QPointF(side_margin + width, top_margin + 40));
  }
  const QString number = report.number.empty() ? QString() : text_of(report.number) + QStringLiteral(" · ");
  put(number + text_of(report.foot), size.height() - foot_margin, Lines::Side::left);
  put(text_of(report.say("page.number", {{"page", std::to_string(page + 1)}, {"pages", std::to_string(pages)}})),
      size.height() - foot_margin, Lines::Side::right);
}

void paint_page(QPainter& painter, const std::vector<Sheet>& sheets, std::size_t page, const Report& report, const Paper& paper) {
  painter.setRenderHint(QPainter::Antialiasing);
  for (const Stroke& stroke : sheets[page]) stroke(painter);
  paint_frame(painter, report, paper, page, sheets.size());
}

QString document_title(const Report& report) {
  if (report.client.empty()) return text_of(report.title);
  return text_of(report.say("page.title_of", {{"title", report.title}, {"client", report.client.front()}}));
}

}  // namespace

Result<std::string> pdf_bytes(const Report& report, const Paper& paper, const Watch& watch) {
  const LaidOut laid_out = lay_out(report, paper, watch);
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  {
    QPdfWriter writer(&buffer);
    writer.setResolution(units_per_inch);
    writer.setPageLayout(
        QPageLayout(QPageSize(paper.size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter), QPageLayout::Portrait, {}));
    writer.setTitle(document_title(report));
    writer.setCreator(QStringLiteral("Prillbook"));
    QPainter painter(&writer);
    const std::size_t pages = laid_out.sheets.size();
    for (std::size_t page = 0; page < pages && !watch.stopped(); ++page) {
      if (page > 0) writer.newPage();
      paint_page(painter, laid_out.sheets, page, report, paper);
      watch.tell(pages + page, 2 * pages);
    }
  }
  if (watch.stopped()) return refusal(ErrorCode::cancelled, "pdf", "stopped");
  return with_bookmarks({bytes.constData(), static_cast<std::size_t>(bytes.size())}, laid_out.bookmarks, page_size(paper.size),
                        std::string(wording::name_of(report.say.language()).code));
}

Result<void> write_pdf(const Report& report, const std::string& path, const Paper& paper, const Watch& watch) {
  PRILLBOOK_ASSIGN(const std::string bytes, pdf_bytes(report, paper, watch));
  return store::write_whole(path, bytes);
}

std::vector<QImage> page_images(const Report& report, const Paper& paper, double dots_per_inch, const Watch& watch) {
  const std::vector<Sheet> sheets = lay_out(report, paper, watch).sheets;
  const double scale = std::clamp(dots_per_inch, 20.0, 600.0) / units_per_inch;
  std::vector<QImage> images;
  for (std::size_t page = 0; page < sheets.size() && !watch.stopped(); ++page) {
    watch.tell(sheets.size() + page, 2 * sheets.size());
    QImage image((page_size(paper.size) * scale).toSize(), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.scale(scale, scale);
    paint_page(painter, sheets, page, report, paper);
    painter.end();
    images.push_back(std::move(image));
  }
  return images;
}

}  // namespace prillbook::paper
