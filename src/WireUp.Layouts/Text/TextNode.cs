using System.Collections.Immutable;

namespace WireUp.Layouts.Text;

/// <summary>
/// A value of the file with the place where it stands. <see cref="End"/> is the position behind its last character; behind the
/// closing bracket of a flow collection, behind the last value of a block collection.
/// </summary>
internal abstract record TextNode
{
    private TextNode(TextPosition start, TextPosition end) => (Start, End) = (start, end);

    public TextPosition Start { get; }

    public TextPosition End { get; }

    /// <summary>What kind of value it is, in words.</summary>
    public abstract string Shape { get; }

    /// <summary>A single value. <paramref name="IsNull"/>: nothing, <c>~</c> or <c>null</c> without quotes.</summary>
    public sealed record Scalar(string Value, bool IsPlain, bool IsNull, TextPosition From, TextPosition To) : TextNode(From, To)
    {
        public override string Shape => IsNull ? "nothing" : "a single value";

        /// <summary>The position of a character of the value; of its beginning where the value is not verbatim in the file.</summary>
        public TextPosition At(int offset)
        {
            int quote = IsPlain ? 0 : 1;
            bool verbatim = End.Index - Start.Index == Value.Length + (2 * quote) && End.Line == Start.Line;
            return verbatim ? Start.Plus(quote + offset) : Start;
        }
    }

    /// <summary>A list.</summary>
    public sealed record Sequence(ImmutableArray<TextNode> Items, bool IsFlow, TextPosition From, TextPosition To) : TextNode(From, To)
    {
        public override string Shape => "a list";
    }

    /// <summary>A mapping, in the order of the file.</summary>
    public sealed record Mapping(ImmutableArray<TextEntry> Entries, bool IsFlow, TextPosition From, TextPosition To) : TextNode(From, To)
    {
        public override string Shape => "a mapping";
    }
}

/// <summary>A key with its value.</summary>
internal sealed record TextEntry(TextNode.Scalar Key, TextNode Value);
