namespace WireUp.Documents.Book;

/// <summary>What stands at the top and the foot of every page.</summary>
internal static class RunningHead
{
    /// <summary>The finished page.</summary>
    public static Scene Finish(BookFacts facts, BookPage page, int number, int count)
    {
        SceneBox content = page.Content;
        if (page.HasHead)
        {
            TextStyle right = BookStyle.Small with { Align = TextAlign.Right };
            double room = content.Width - TextFlow.Width(page.Section, right) - 6;
            string title = facts.Title;
            if (TextFlow.Width(title, BookStyle.Small) > room) title = TextFlow.Shorten(title, room, BookStyle.Small);
            page.Write(title, content.Left, 13, BookStyle.Small);
            page.Write(page.Section, content.Right, 13, right);
            page.Rule(content.Left, content.Right, 15, BookStyle.Rule);
            page.Write("Power off before you touch a wire.", content.Left, page.Sheet.Height - 10, BookStyle.Small);
            page.Write(Figure.Text($"page {number} of {count}"), content.Right, page.Sheet.Height - 10, right);
        }

        return new(page.Sheet.Width, page.Sheet.Height, page.Shapes) { Title = $"{facts.Title}: {page.Section}" };
    }
}
