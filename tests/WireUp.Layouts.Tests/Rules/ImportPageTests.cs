using System.Globalization;
using System.Text.RegularExpressions;
using WireUp.Layouts.Tracing;
using WireUp.Layouts.Tracing.Svg;

namespace WireUp.Layouts.Tests.Rules;

/// <summary>The handbook's page on tracing drawings says what the program does.</summary>
public sealed partial class ImportPageTests
{
    [Fact]
    public void Every_limit_is_stated() =>
        Assert.Equal(
            [SvgLimits.Characters, SvgLimits.Depth, SvgLimits.Elements, SvgLimits.Drawn, SvgLimits.StyleRules, SvgLimits.CurvePieces, LineTracing.MostLines, LineTracing.MostPoints, LineTracing.MostMeetings],
            Limit().Matches(RepoFiles.ReadText("docs/import.md")).Select(row => int.Parse(row.Groups["most"].Value, CultureInfo.InvariantCulture)));

    [Fact]
    public void The_tolerance_of_curves_is_stated() =>
        Assert.Contains($"at most {new SvgImport().Tolerance.Millimeters.ToString(CultureInfo.InvariantCulture)} mm off", RepoFiles.ReadText("docs/import.md"), StringComparison.Ordinal);

    [GeneratedRegex(@"^\| [a-z][^|]* \| (?<most>\d+) \|$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Limit();
}
