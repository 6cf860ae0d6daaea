using System.Collections.Immutable;

namespace WireUp.Layouts.Writing;

/// <summary>A piece of YAML to be written, in block style on lines of its own or in flow style within a line.</summary>
internal abstract record Snippet
{
    private Snippet()
    {
    }

    /// <summary>A value in flow style.</summary>
    public abstract string Flow { get; }

    /// <summary>A single value, or anything already written in flow style.</summary>
    public sealed record Leaf(string Text) : Snippet
    {
        public override string Flow => Text;
    }

    /// <summary>A mapping.</summary>
    public sealed record Map(ImmutableArray<(string Key, Snippet Value)> Entries) : Snippet
    {
        public override string Flow => Entries.IsEmpty ? "{}" : $"{{ {string.Join(", ", Entries.Select(entry => $"{entry.Key}: {entry.Value.Flow}"))} }}";
    }

    /// <summary>A list.</summary>
    public sealed record List(ImmutableArray<string> Items) : Snippet
    {
        public override string Flow => Items.IsEmpty ? "[]" : $"[ {string.Join(", ", Items)} ]";
    }

    /// <summary>A mapping whose values are given as text.</summary>
    public static Map Of(params IEnumerable<(string Key, string? Value)> entries) =>
        new([.. entries.Where(entry => entry.Value is not null).Select(entry => (entry.Key, (Snippet)new Leaf(entry.Value!)))]);
}
