// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/bookmarks.h"

#include <exception>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

namespace prillbook::paper {
namespace {

using Handle = QPDFObjectHandle;

struct Item {
  Handle object;
  std::vector<Item> under;
};

// Items under `parent`, each tied to the one before it. A closed item counts its own below zero.
void tie(std::vector<Item>& items, Handle parent) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    Handle& object = items[i].object;
    object.replaceKey("/Parent", parent);
    if (i > 0) object.replaceKey("/Prev", items[i - 1].object);
    if (i + 1 < items.size()) object.replaceKey("/Next", items[i + 1].object);
    if (items[i].under.empty()) continue;
    tie(items[i].under, object);
    object.replaceKey("/Count", Handle::newInteger(-static_cast<long long>(items[i].under.size())));
  }
  parent.replaceKey("/First", items.front().object);
  parent.replaceKey("/Last", items.back().object);
}

std::vector<Item> items_of(QPDF& document, const std::vector<Bookmark>& bookmarks, const QSizeF& page) {
  auto pages = QPDFPageDocumentHelper(document).getAllPages();
  std::vector<Item> top;
  for (const Bookmark& bookmark : bookmarks) {
    if (bookmark.page >= pages.size()) continue;
    Handle object = document.makeIndirectObject(Handle::newDictionary());
    object.replaceKey("/Title", Handle::newUnicodeString(bookmark.text));
    Handle place = Handle::newArray();
    place.appendItem(pages[bookmark.page].getObjectHandle());
    place.appendItem(Handle::newName("/XYZ"));
    place.appendItem(Handle::newNull());
    place.appendItem(Handle::newInteger(static_cast<long long>((page.height() - bookmark.y) / 10)));
    place.appendItem(Handle::newNull());
    object.replaceKey("/Dest", place);
    auto& list = bookmark.level > 1 && !top.empty() ? top.back().under : top;
    list.push_back({object, {}});
  }
  return top;
}

void put_in(QPDF& document, const std::vector<Bookmark>& bookmarks, const QSizeF& page) {
  Handle root = document.getRoot();
  root.replaceKey("/Lang", Handle::newUnicodeString("en"));
  Handle view = Handle::newDictionary();
  view.replaceKey("/DisplayDocTitle", Handle::newBool(true));
  root.replaceKey("/ViewerPreferences", view);
  std::vector<Item> items = items_of(document, bookmarks, page);
  if (items.empty()) return;
  Handle outlines = document.makeIndirectObject(Handle::newDictionary());
  outlines.replaceKey("/Type", Handle::newName("/Outlines"));
  tie(items, outlines);
  outlines.replaceKey("/Count", Handle::newInteger(static_cast<long long>(items.size())));
  root.replaceKey("/Outlines", outlines);
  root.replaceKey("/PageMode", Handle::newName("/UseOutlines"));
}

}  // namespace

Result<std::string> with_bookmarks(std::string_view pdf, const std::vector<Bookmark>& bookmarks, const QSizeF& page) {
  try {
    QPDF document;
    document.setSuppressWarnings(true);
    document.processMemoryFile("summary", pdf.data(), pdf.size());
    put_in(document, bookmarks, page);
    QPDFWriter writer(document);
    writer.setOutputMemory();
    writer.setDeterministicID(true);
    writer.write();
    const auto bytes = writer.getBufferSharedPointer();
    return std::string(reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize());
  } catch (const std::exception& fault) {
    return refusal(ErrorCode::damaged, "pdf", fault.what());
  }
}

}  // namespace prillbook::paper
