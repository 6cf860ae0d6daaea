using System.Collections.Immutable;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>One name of a chain or run with the position where it stands.</summary>
internal readonly record struct ChainPart(string Text, TextPosition At);

/// <summary>Cuts text at <c>&gt;</c> into trimmed parts with their positions.</summary>
internal static class ChainText
{
    public static ImmutableArray<ChainPart> Split(TextNode.Scalar scalar)
    {
        ImmutableArray<ChainPart>.Builder parts = ImmutableArray.CreateBuilder<ChainPart>();
        string text = scalar.Value;
        int from = 0;
        while (from <= text.Length)
        {
            int to = text.IndexOf('>', from);
            to = to < 0 ? text.Length : to;
            int begin = from;
            while (begin < to && char.IsWhiteSpace(text[begin]))
            {
                begin++;
            }

            parts.Add(new ChainPart(text[begin..to].TrimEnd(), scalar.At(begin)));
            from = to + 1;
        }

        return parts.ToImmutable();
    }
}
