#pragma once
// Text, tables and pictures one below the other, from page to page.

#include <functional>
#include <string_view>

#include "papers/page.h"

namespace plankwright::papers {

/// Draws what stands on every page (frame, letter head) and gives back the space for the text.
/// `number` counts the pages of the flow from 1.
using PageStart = std::function<Rectangle(Page& page, int number)>;

/// A column that fills pages. New pages go to the end of `paper`, which must outlive this.
class Flow {
 public:
  Flow(Paper& paper, PageSize size, PageStart start);

  Page& page() { return paper_->pages[page_]; }
  /// The space for the text on this page.
  Rectangle body() const { return body_; }
  /// What is still free of it.
  Rectangle rest() const { return {body_.x, y_, body_.width, body_.bottom() - y_}; }
  /// Nothing has been placed on this page yet.
  bool at_top() const { return y_ == body_.y; }
  bool has_room(double height) const;

  void new_page();
  /// The next `height` of the column, on a new page when it has no room here. What is higher than a
  /// page gets a page of its own and runs over the end of it.
  Rectangle take(double height);
  /// Free space, unless at the top of a page.
  void gap(double height);

  /// A text as wide as the column, broken between lines where the page ends.
  void paragraph(std::string_view text, const TextStyle& style = kBodyText);
  /// A heading, kept on one page with the next `keep` below it.
  void heading(std::string_view text, const TextStyle& style = kHeadingText, double keep = 20);

 private:
  Paper* paper_;
  PageSize size_;
  PageStart start_;
  int number_ = 0;
  std::size_t page_ = 0;
  Rectangle body_;
  double y_ = 0;
};

}  // namespace plankwright::papers
