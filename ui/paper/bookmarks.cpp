// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/bookmarks.h"

#include <qpdf/qpdf-c.h>

#include <algorithm>

namespace prillbook::paper {
namespace {

using Handle = qpdf_oh;

struct Item {
  Handle object = 0;
  std::vector<Item> under = {};
};

// One document of the library, let go with it. Its functions never throw: a fault leaves a handle of null.
class Document {
 public:
  Document() : data_(qpdf_init()) {
    qpdf_set_suppress_warnings(data_, QPDF_TRUE);
    qpdf_silence_errors(data_);
  }
  ~Document() {
    if (qpdf_has_error(data_)) qpdf_get_error(data_);  // taken note of: else the library speaks of it
    qpdf_cleanup(&data_);
  }
  Document(const Document&) = delete;
  Document& operator=(const Document&) = delete;

  bool read(std::string_view bytes) {
    return !(qpdf_read_memory(data_, "summary", bytes.data(), bytes.size(), nullptr) & QPDF_ERRORS) && page_count() > 0;
  }
  std::size_t page_count() { return static_cast<std::size_t>(std::max(0, qpdf_get_num_pages(data_))); }
  Handle root() { return qpdf_get_root(data_); }
  Handle page(std::size_t at) { return qpdf_get_page_n(data_, at); }
  Handle shared_dictionary() { return qpdf_make_indirect_object(data_, dictionary()); }
  Handle dictionary() { return qpdf_oh_new_dictionary(data_); }
  Handle name(const char* text) { return qpdf_oh_new_name(data_, text); }
  Handle text(const std::string& words) { return qpdf_oh_new_unicode_string(data_, words.c_str()); }
  Handle whole(long long number) { return qpdf_oh_new_integer(data_, number); }
  Handle yes() { return qpdf_oh_new_bool(data_, QPDF_TRUE); }
  void put(Handle object, const char* key, Handle value) { qpdf_oh_replace_key(data_, object, key, value); }

  // The place of a heading: the page from `top` (points from its foot) on, at the reader's own size.
  Handle place(std::size_t at, double top) {
    Handle list = qpdf_oh_new_array(data_);
    for (const Handle part :
         {page(at), name("/XYZ"), qpdf_oh_new_null(data_), whole(static_cast<long long>(top)), qpdf_oh_new_null(data_)})
      qpdf_oh_append_item(data_, list, part);
    return list;
  }
  Result<std::string> written() {
    if (qpdf_init_write_memory(data_) & QPDF_ERRORS) return fault();
    qpdf_set_deterministic_ID(data_, QPDF_TRUE);
    if (qpdf_write(data_) & QPDF_ERRORS) return fault();
    const auto* bytes = qpdf_get_buffer(data_);
    return std::string(reinterpret_cast<const char*>(bytes), qpdf_get_buffer_length(data_));
  }
  static Error fault() { return refusal(ErrorCode::damaged, "pdf", "the bookmarks can not be put into the file"); }

 private:
  qpdf_data data_;
};

// Items under `parent`, each tied to the one before it. A closed item counts its own below zero.
void tie(Document& document, const std::vector<Item>& items, Handle parent) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Handle object = items[i].object;
    document.put(object, "/Parent", parent);
    if (i > 0) document.put(object, "/Prev", items[i - 1].object);
    if (i + 1 < items.size()) document.put(object, "/Next", items[i + 1].object);
    if (items[i].under.empty()) continue;
    tie(document, items[i].under, object);
    document.put(object, "/Count", document.whole(-static_cast<long long>(items[i].under.size())));
  }
  document.put(parent, "/First", items.front().object);
  document.put(parent, "/Last", items.back().object);
}

std::vector<Item> items_of(Document& document, const std::vector<Bookmark>& bookmarks, const QSizeF& page) {
  std::vector<Item> top;
  for (const Bookmark& bookmark : bookmarks) {
    if (bookmark.page >= document.page_count()) continue;
    const Handle object = document.shared_dictionary();
    document.put(object, "/Title", document.text(bookmark.text));
    document.put(object, "/Dest", document.place(bookmark.page, (page.height() - bookmark.y) / 10));
    auto& list = bookmark.level > 1 && !top.empty() ? top.back().under : top;
    list.push_back({object, {}});
  }
  return top;
}

}  // namespace

Result<std::string> with_bookmarks(std::string_view pdf, const std::vector<Bookmark>& bookmarks, const QSizeF& page,
                                   const std::string& language) {
  Document document;
  if (!document.read(pdf)) return Document::fault();
  const Handle root = document.root();
  document.put(root, "/Lang", document.text(language));
  const Handle view = document.dictionary();
  document.put(view, "/DisplayDocTitle", document.yes());
  document.put(root, "/ViewerPreferences", view);
  if (const std::vector<Item> items = items_of(document, bookmarks, page); !items.empty()) {
    const Handle outlines = document.shared_dictionary();
    document.put(outlines, "/Type", document.name("/Outlines"));
    tie(document, items, outlines);
    document.put(outlines, "/Count", document.whole(static_cast<long long>(items.size())));
    document.put(root, "/Outlines", outlines);
    document.put(root, "/PageMode", document.name("/UseOutlines"));
  }
  return document.written();
}

}  // namespace prillbook::paper
