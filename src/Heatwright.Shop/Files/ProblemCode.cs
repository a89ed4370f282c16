// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop.Files;

/// <summary>The stable codes of <see cref="Problem"/>. A code never changes its meaning; new ones may join.</summary>
public static class ProblemCode
{
    /// <summary>The file is not there.</summary>
    public const string FileMissing = "file-missing";
    /// <summary>The file is there and cannot be read.</summary>
    public const string FileUnreadable = "file-unreadable";
    /// <summary>The file is larger than the limit.</summary>
    public const string FileTooLarge = "file-too-large";
    /// <summary>The bytes are not UTF-8, or hold control characters.</summary>
    public const string NotText = "not-text";
    /// <summary>There is nothing in the file.</summary>
    public const string EmptyFile = "empty-file";
    /// <summary>The text is not YAML; also the usual sign of a truncated file.</summary>
    public const string NotYaml = "not-yaml";
    /// <summary>A tab stands in the indent.</summary>
    public const string TabInIndent = "tab-in-indent";
    /// <summary>Nested more deeply than the limit.</summary>
    public const string TooDeep = "too-deep";
    /// <summary>More values than the limit once aliases are expanded.</summary>
    public const string TooManyValues = "too-many-values";
    /// <summary>An alias names an anchor that is not complete before it.</summary>
    public const string UnknownAlias = "unknown-alias";
    /// <summary>A second document in one file.</summary>
    public const string SecondDocument = "second-document";
    /// <summary>A YAML tag, e.g. <c>!!float</c>.</summary>
    public const string TagNotAllowed = "tag-not-allowed";
    /// <summary>A key twice in one block.</summary>
    public const string DuplicateKey = "duplicate-key";
    /// <summary>A key that is not a word.</summary>
    public const string KeyNotText = "key-not-text";
    /// <summary>More problems than are listed.</summary>
    public const string MoreProblems = "more-problems";
    /// <summary>The file is of another kind than the one asked for.</summary>
    public const string WrongFileKind = "wrong-file-kind";
    /// <summary>The file's format is not known to this version.</summary>
    public const string UnknownFormat = "unknown-format";
    /// <summary>A field that is not known here.</summary>
    public const string UnknownField = "unknown-field";
    /// <summary>A field that must be there.</summary>
    public const string MissingField = "missing-field";
    /// <summary>A field without a value.</summary>
    public const string MissingValue = "missing-value";
    /// <summary>An analysis that must be there.</summary>
    public const string MissingAnalysis = "missing-analysis";
    /// <summary>A block where a value is due, or the reverse.</summary>
    public const string WrongShape = "wrong-shape";
    /// <summary>Not a number with a unit.</summary>
    public const string NotANumber = "not-a-number";
    /// <summary>NaN, infinity, or a number too large for any use.</summary>
    public const string NotFinite = "not-finite";
    /// <summary>A comma inside a number.</summary>
    public const string CommaInNumber = "comma-in-number";
    /// <summary>A number without its unit.</summary>
    public const string MissingUnit = "missing-unit";
    /// <summary>A unit that is not in the list.</summary>
    public const string UnknownUnit = "unknown-unit";
    /// <summary>A unit of something else.</summary>
    public const string WrongUnit = "wrong-unit";
    /// <summary>One kind of % where another is due.</summary>
    public const string WrongKind = "wrong-kind";
    /// <summary>A unit where a plain number is due.</summary>
    public const string UnexpectedUnit = "unexpected-unit";
    /// <summary>A whole number is due.</summary>
    public const string NotWhole = "not-whole";
    /// <summary>Below zero where that cannot be.</summary>
    public const string Negative = "negative";
    /// <summary>Outside the allowed range.</summary>
    public const string OutOfRange = "out-of-range";
    /// <summary>The lower end of a range lies above the upper.</summary>
    public const string RangeReversed = "range-reversed";
    /// <summary>An analysis adds up to more than 100 %.</summary>
    public const string MassPercentOver100 = "mass-percent-over-100";
    /// <summary>The analysis of a flux or alloy does not add up to about 100 %.</summary>
    public const string AnalysisIncomplete = "analysis-incomplete";
    /// <summary>A word that is not in the list.</summary>
    public const string UnknownWord = "unknown-word";
    /// <summary>A text that is too long or holds signs that names cannot have.</summary>
    public const string BadName = "bad-name";
    /// <summary>More or fewer entries than allowed.</summary>
    public const string WrongCount = "wrong-count";
    /// <summary>A scrap class that materials.yaml does not know.</summary>
    public const string UnknownScrapClass = "unknown-scrap-class";
    /// <summary>A flux, coolant, heating agent or alloy that materials.yaml does not know.</summary>
    public const string UnknownAddition = "unknown-addition";
    /// <summary>A grade that grades.yaml does not know.</summary>
    public const string UnknownGrade = "unknown-grade";
    /// <summary>A practice that the practices folder does not hold.</summary>
    public const string UnknownPractice = "unknown-practice";
    /// <summary>A converter that plant.yaml does not know.</summary>
    public const string UnknownConverter = "unknown-converter";
    /// <summary>The aim lies outside its own window.</summary>
    public const string AimOutsideWindow = "aim-outside-window";
    /// <summary>The order asks for what its grade forbids.</summary>
    public const string AimOutsideGrade = "aim-outside-grade";
    /// <summary>Steps of a practice do not follow one another.</summary>
    public const string StepsOutOfOrder = "steps-out-of-order";
    /// <summary>A practice lacks a set point at the start of the blow.</summary>
    public const string NoStartSetPoint = "no-start-set-point";
    /// <summary>A step waits for the in-blow measurement that the practice does not have.</summary>
    public const string NoMeasurement = "no-measurement";
    /// <summary>The batches of a material do not add up to 100 %.</summary>
    public const string SharesNot100 = "shares-not-100";
    /// <summary>The practice has no batch for a material of the charge.</summary>
    public const string NoBatch = "no-batch";
    /// <summary>The charge cannot give the ordered mass.</summary>
    public const string ChargeDoesNotFitOrder = "charge-does-not-fit-order";
    /// <summary>The scrap does not go into the boxes.</summary>
    public const string BoxTooSmall = "box-too-small";
    /// <summary>The nozzle's exit is narrower than its throat.</summary>
    public const string NozzleNotDivergent = "nozzle-not-divergent";
    /// <summary>Two files give the same name.</summary>
    public const string DuplicateName = "duplicate-name";
}
