using System.CommandLine;
using WireUp.Documents;

namespace WireUp.Commands;

/// <summary>Arguments and options that several verbs share, so that they mean the same everywhere.</summary>
internal static class Common
{
    /// <summary>The layout file every verb works on.</summary>
    public static Argument<FileInfo> Layout() => new("layout") { Description = "The layout file, *.layout.yaml." };

    /// <summary>One JSON document on standard output instead of tables.</summary>
    public static Option<bool> Json() =>
        new("--json") { Description = "Print one JSON document on standard output and nothing else." };

    /// <summary>The paper of printed documents.</summary>
    public static Option<PaperSize> Paper() =>
        new("--paper") { Description = "Paper of the wiring book.", DefaultValueFactory = _ => PaperSize.A4 };
}
