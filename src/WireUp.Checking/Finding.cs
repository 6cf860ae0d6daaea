using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Checking;

/// <summary>How serious a finding is; a promise to the reader.</summary>
public enum Severity
{
    /// <summary>Good practice.</summary>
    Advice,

    /// <summary>A stated limit is exceeded.</summary>
    Warning,

    /// <summary>Will short or cannot work; no false alarm of it is known.</summary>
    Error,
}

/// <summary>The words of <see cref="Severity"/>.</summary>
public static class Severities
{
    /// <summary>The word that people and results read: <c>error</c>, <c>warning</c>, <c>advice</c>.</summary>
    public static string Word(this Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        Severity.Advice => "advice",
        _ => throw new ArgumentOutOfRangeException(nameof(severity), severity, "not a severity"),
    };
}

/// <summary>One thing that <c>check</c> has to say.</summary>
/// <param name="Code">Stable code, for instance <c>WU3001</c>; its page is docs/findings/&lt;code&gt;.md.</param>
/// <param name="Severity">How serious it is.</param>
/// <param name="Message">One sentence: the problem, names in quotes, numbers with unit and limit.</param>
/// <param name="Remedy">One action.</param>
public sealed record Finding(string Code, Severity Severity, string Message, string Remedy)
{
    /// <summary>Where, in the words of the layout file: <c>T1.diverging/left</c>, <c>loop@1.2 m</c>, <c>f3</c>.</summary>
    public ImmutableArray<string> Places { get; init; } = [];

    /// <summary>The witness: the rail points and wires passed, from one polarity to the other. Empty where there is none.</summary>
    public ImmutableArray<string> Path { get; init; } = [];

    /// <summary>The positions the witness needs; turnouts it does not need are not in it. Ordered by name.</summary>
    public ImmutableSortedDictionary<PieceId, string> Turnouts { get; init; } = ImmutableSortedDictionary<PieceId, string>.Empty;

    /// <summary>The same with the lengths of its sentences in a person's units; places and path keep to the words of the layout file.</summary>
    internal Finding Told(Layout layout) => this with { Message = layout.Retell(Message), Remedy = layout.Retell(Remedy) };
}
