document.documentElement.dataset.drawn = 'yes';
