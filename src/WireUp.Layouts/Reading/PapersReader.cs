using System.Collections.Immutable;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads how the papers of a railway are wanted.</summary>
internal sealed class PapersReader(ReadContext context)
{
    private const string ExampleName = "a word or two of at most 24 characters";
    private const string ExampleAddress = "an address of at most 200 characters without #, for instance http://192.168.1.20:5080/layouts/club/sheet";
    private const int MostLetters = 8, MostWord = 24, MostAddress = 200;

    public Papers Read(TextEntry? entry)
    {
        if (entry is null)
        {
            return Papers.Usual;
        }

        MapReader map = new(context, entry.Value, FormatKeys.Papers, entry.Key.Start);
        ImmutableSortedDictionary<string, string> letters = ReadLetters(map);
        return new()
        {
            LegA = Colour(map, "leg-a", letters),
            LegB = Colour(map, "leg-b", letters),
            Frog = Colour(map, "frog", letters),
            LegAName = Word(map.Scalar(map.Find("leg-a-name"), ExampleName)),
            LegBName = Word(map.Scalar(map.Find("leg-b-name"), ExampleName)),
            Letters = letters,
            WorkSheet = Address(map.Scalar(map.Find("work-sheet"), ExampleAddress)),
        };
    }

    private ImmutableSortedDictionary<string, string> ReadLetters(MapReader map)
    {
        ImmutableSortedDictionary<string, string>.Builder letters = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach (TextEntry entry in map.Named("letters", "a mapping of colours by letters, for instance { LB: light blue }"))
        {
            TextNode.Scalar key = entry.Key;
            if (key.Value.Length > MostLetters || !key.Value.All(char.IsLetterOrDigit))
            {
                context.Add(LayoutRules.BadName, key.Start, key.Value, $"\"{ProblemList.Shorten(key.Value)}\" cannot stand for a colour", "one to eight letters or digits, for instance LB");
            }
            else if (Word(map.Scalar(entry, ExampleName)) is { } colour)
            {
                if (ColourLetters.IsEarth(key.Value, colour))
                {
                    Earth(key);
                }
                else
                {
                    letters[key.Value] = colour;
                }
            }
        }

        return letters.ToImmutable();
    }

    private string? Colour(MapReader map, string key, ImmutableSortedDictionary<string, string> own)
    {
        if (map.Scalar(map.Find(key), "letters of a colour, for instance RD") is not { } text)
        {
            return null;
        }

        if (own.ContainsKey(text.Value) || ColourLetters.Names.ContainsKey(text.Value))
        {
            return text.Value;
        }

        if (ColourLetters.IsEarth(text.Value, ""))
        {
            Earth(text);
        }
        else
        {
            context.Add(LayoutRules.UnknownWord, text.At(0), text.Value, $"nobody has said which colour \"{ProblemList.Shorten(text.Value)}\" is",
                $"{context.Expect(text.Value, own.Keys.Concat(ColourLetters.Names.Keys.Order(StringComparer.Ordinal)))}, or letters that stand under \"letters\"");
        }

        return null;
    }

    private void Earth(TextNode.Scalar text) => context.Add(LayoutRules.UnknownWord, text.At(0), text.Value,
        $"\"{ProblemList.Shorten(text.Value)}\" is no colour for a layout: green with yellow is for protective earth and nothing else", "another colour");

    private string? Word(TextNode.Scalar? text)
    {
        if (text is null || (text.Value.Trim().Length is > 0 and <= MostWord && !text.Value.Any(char.IsControl)))
        {
            return text?.Value.Trim();
        }

        context.WrongShape(text, $"\"{ProblemList.Shorten(text.Value)}\"", ExampleName);
        return null;
    }

    private string? Address(TextNode.Scalar? text)
    {
        if (text is null || (text.Value.Length <= MostAddress && !text.Value.Contains('#', StringComparison.Ordinal) && !text.Value.Any(char.IsWhiteSpace)
            && Uri.TryCreate(text.Value, UriKind.Absolute, out Uri? address) && (address.Scheme == Uri.UriSchemeHttp || address.Scheme == Uri.UriSchemeHttps)))
        {
            return text?.Value;
        }

        context.Add(LayoutRules.WrongShape, text.At(0), text.Value, $"\"{ProblemList.Shorten(text.Value)}\" is not the address of a work sheet", ExampleAddress);
        return null;
    }
}
