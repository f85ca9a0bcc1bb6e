#pragma once
// Text on paper: how large, how it breaks, and how sizes with fractions are set.

#include <string>
#include <string_view>
#include <vector>

namespace plankwright::papers {

struct Colour {
  double red = 0;
  double green = 0;
  double blue = 0;
  friend constexpr bool operator==(const Colour&, const Colour&) = default;
};

/// The look of all papers: pencil on white, and one ink.
inline constexpr Colour kPencil{0.16, 0.17, 0.18};
inline constexpr Colour kSoftPencil{0.38, 0.40, 0.42};
inline constexpr Colour kFaintPencil{0.70, 0.72, 0.73};
inline constexpr Colour kShade{0.952, 0.960, 0.958};
inline constexpr Colour kAccent{0.03, 0.30, 0.34};
inline constexpr Colour kWhite{1, 1, 1};

/// `a` with `share` (0 to 1) of `b` in it.
constexpr Colour mixed(Colour a, Colour b, double share) {
  return {a.red + (b.red - a.red) * share,
          a.green + (b.green - a.green) * share,
          a.blue + (b.blue - a.blue) * share};
}

enum class Align { kLeft, kCentre, kRight };
enum class Weight { kRegular, kMedium, kBold };

/// How a text is set. Sizes are given by the height of capitals and figures, as on drawings.
struct TextStyle {
  double letter_height = 2.3;
  Weight weight = Weight::kRegular;
  bool italic = false;
  Colour colour = kPencil;
  /// All figures equally wide, so that columns of numbers line up.
  bool tabular = false;
  /// `34 7/8` gets a set fraction and is never broken; off where a stroke means something else.
  bool fractions = true;
  /// From one baseline to the next, in letter heights.
  double line_pitch = 1.9;
};

inline constexpr TextStyle kBodyText{};
inline constexpr TextStyle kSmallText{.letter_height = 1.8, .colour = kSoftPencil};
inline constexpr TextStyle kCaptionText{.letter_height = 1.5, .colour = kSoftPencil};
inline constexpr TextStyle kHeadingText{
    .letter_height = 3.2, .weight = Weight::kBold, .colour = kAccent, .line_pitch = 1.6};
inline constexpr TextStyle kTitleText{
    .letter_height = 5, .weight = Weight::kBold, .line_pitch = 1.5};
inline constexpr TextStyle kNumberText{.tabular = true};
/// Figures 25 mm high, to be read at the saw from where one stands.
inline constexpr TextStyle kSawFigures{
    .letter_height = 25, .weight = Weight::kBold, .tabular = true, .line_pitch = 1.4};

/// The space a text takes. Its height runs from the top of the capitals of the first line to the
/// lowest descender of the last, or to its baseline when the text is figures only.
struct TextSize {
  double width = 0;
  double height = 0;
  double first_baseline = 0;  // below the top
  int lines = 0;
};

/// Lines are broken at `width` when it is not 0; a word wider than that is broken inside.
TextSize text_size(std::string_view text, const TextStyle& style, double width = 0);

/// The lines into which `text` is broken, without the spaces at their ends.
std::vector<std::string> broken_lines(std::string_view text, const TextStyle& style, double width);

/// Height of the letters' body for letters that high, as a browser asks for it, in millimetres.
double font_size(const TextStyle& style);

/// A fraction in a text, such as the `7/8` of `34 7/8`, by its bytes; `whole` is where the whole
/// number before it begins, with its feet (or the fraction itself). Only halves to sixty-fourths
/// smaller than one, as a rule is divided; dates and such are left alone.
struct FractionPlace {
  std::size_t whole = 0;
  std::size_t begin = 0;
  std::size_t end = 0;
  friend bool operator==(const FractionPlace&, const FractionPlace&) = default;
};
std::vector<FractionPlace> fractions_in(std::string_view text);

/// The font the papers are drawn for, the one that is really there, and what to tell the user when
/// they differ (empty when they agree).
struct FontReport {
  std::string wanted;
  std::string found;
  std::string warning;
};
FontReport check_font();

}  // namespace plankwright::papers
