using System.CommandLine;
using WireUp.Documents;
using WireUp.Files;
using WireUp.Layouts;

namespace WireUp.Commands;

/// <summary>Arguments and options that several verbs share, so that they mean the same everywhere.</summary>
internal static class Common
{
    /// <summary>The layout file every verb works on.</summary>
    public static Argument<FileInfo> Layout() => new("layout") { Description = "The layout file, *.layout.yaml; - for standard input." };

    /// <summary>One JSON document on standard output instead of tables.</summary>
    public static Option<bool> Json() =>
        new("--json") { Description = "Print one JSON document on standard output and nothing else." };

    /// <summary>In which units lengths are told; those of the layout file if left out.</summary>
    public static Option<LengthStyle?> Lengths() => new("--lengths")
    {
        Description = "Lengths in metric units or in feet and inches; left out: as the layout file's 'lengths' or 'units' say.",
        HelpName = "metric|feet",
    };

    /// <summary>The layout with its lengths told as asked.</summary>
    public static Layout In(this Layout layout, LengthStyle? lengths) => lengths is { } asked ? layout with { Lengths = asked } : layout;

    /// <summary>The paper of printed documents.</summary>
    public static Option<PaperSize> Paper() =>
        new("--paper") { Description = "Paper of the wiring book.", DefaultValueFactory = _ => PaperSize.A4 };

    /// <summary>What was typed, as a value.</summary>
    /// <param name="read">What came of reading it.</param>
    /// <param name="typed">What was typed and where, to begin a refusal with.</param>
    /// <exception cref="InputRefused">It could not be read.</exception>
    public static T Value<T>(WordsRead<T> read, string typed)
        where T : struct => read.Value ?? throw new InputRefused($"{typed}: {read.Trouble}");
}
